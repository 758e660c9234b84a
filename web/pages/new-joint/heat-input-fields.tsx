/** The heat input, in whichever of its forms it is known. */
import { ChoiceField } from '../../parts/field.tsx';
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
