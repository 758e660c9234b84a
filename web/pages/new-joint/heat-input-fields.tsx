/** The heat input, in whichever of its forms it is known, and how the joint is heated. */
import { heatingSchema } from '../../../server/weld/joint.ts';
import { begun } from '../../../server/wording/list.ts';
import { ChoiceField, SelectField } from '../../parts/field.tsx';
import type { JointDraft } from './draft.ts';
import type { Entry } from './entry.tsx';
import { NumberField } from './number-field.tsx';
import { unitOf } from './quantity.ts';

type HeatInput = JointDraft['heatInput'];

export function HeatInputFields({ entry }: { readonly entry: Entry }) {
  const { heatInput, units } = entry.draft;
  const set = (part: Partial<HeatInput>): void => entry.change({ heatInput: { ...heatInput, ...part } });
  const number = (key: Exclude<keyof HeatInput, 'how'>, label: string, field: string, unit: string) => (
    <NumberField
      entry={entry}
      label={label}
      unit={unit}
      field={`heatInput.${field}`}
      value={heatInput[key]}
      onValue={(value) => set({ [key]: value })}
    />
  );
  const speed = number('speed', 'Travel speed', 'millimetresPerSecond', unitOf('speed', units));
  return (
    <>
      <ChoiceField
        label="Heat input"
        value={heatInput.how}
        choices={[
          { value: 'energy', text: unitOf('heat input', units).replace('/', ' per ') },
          { value: 'arc', text: 'Volts, amperes, speed' },
          { value: 'waveform energy', text: 'Energy shown by the source' },
          { value: 'waveform power', text: 'Power shown by the source' },
          { value: 'not stated', text: 'Not stated' },
        ]}
        problem={entry.problem('heatInput')}
        onValue={(how) => set({ how })}
      />
      {heatInput.how !== 'not stated' && (
        <div class="fields">
          {heatInput.how === 'energy' &&
            number(
              'kilojoules',
              'Heat input, efficiency included',
              'kilojoulesPerMillimetre',
              unitOf('heat input', units),
            )}
          {heatInput.how === 'arc' && (
            <>
              {number('volts', 'Voltage', 'volts', 'V')}
              {number('amperes', 'Current', 'amperes', 'A')}
              {speed}
            </>
          )}
          {heatInput.how === 'waveform energy' && (
            <>
              {number('joules', 'Instantaneous energy of the bead', 'instantaneousJoules', 'J')}
              {number('bead', 'Length of the bead', 'beadMillimetres', unitOf('length', units))}
            </>
          )}
          {heatInput.how === 'waveform power' && (
            <>
              {number('watts', 'Instantaneous power', 'instantaneousWatts', 'W')}
              {speed}
            </>
          )}
        </div>
      )}
    </>
  );
}

const { means, face, whileWelding } = heatingSchema.shape;

export function HeatingFields({ entry }: { readonly entry: Entry }) {
  const { heating } = entry.draft;
  const set = (part: Partial<JointDraft['heating']>): void => entry.change({ heating: { ...heating, ...part } });
  const choices = (values: readonly string[]) => values.map((value) => ({ value, text: begun(value) }));
  return (
    <fieldset class="group">
      <legend>Heating</legend>
      <div class="fields">
        <SelectField
          label="Means"
          value={heating.means}
          choices={choices(means.options)}
          onValue={(value) => set({ means: value })}
        />
        <SelectField
          label="Heated face"
          value={heating.face}
          choices={choices(face.options)}
          onValue={(value) => set({ face: value })}
        />
        <SelectField
          label="While welding"
          value={heating.whileWelding}
          choices={whileWelding.options.map((state) => ({ value: state as string, text: `Heat ${state}` }))}
          onValue={(value) => set({ whileWelding: value })}
        />
      </div>
      <p class="hint">
        Front is the face toward the welder. Where you can, heat from one face and measure on the other.
      </p>
    </fieldset>
  );
}
