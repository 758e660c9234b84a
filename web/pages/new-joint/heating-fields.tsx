/** How the joint is heated: by what, through which face, how wide, up to where, and in what air. */
import { heatingSchema } from '../../../server/weld/joint.ts';
import { begun } from '../../../server/wording/list.ts';
import { SelectField } from '../../parts/field.tsx';
import type { JointDraft } from './draft.ts';
import type { Entry } from './entry.tsx';
import { NumberField } from './number-field.tsx';

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
        <NumberField
          entry={entry}
          label="Heater reaches"
          kind="length"
          field="heating.halfWidthMillimetres"
          optional="if known"
          hint="From the edge of the groove to the outer edge of the heater. Not needed in a furnace."
          value={heating.halfWidth}
          onValue={(halfWidth) => set({ halfWidth })}
        />
        <NumberField
          entry={entry}
          label="Set point"
          kind="temperature"
          field="heating.setPointCelsius"
          optional="if known"
          hint="Where the heated face is held; forecasts end their rise there."
          value={heating.setPoint}
          onValue={(setPoint) => set({ setPoint })}
        />
        <NumberField
          entry={entry}
          label="Lowest air temperature"
          kind="temperature"
          field="heating.airCelsius"
          optional="if known"
          hint="Around the part; an ambient probe can stand for it."
          value={heating.air}
          onValue={(air) => set({ air })}
        />
      </div>
      <p class="hint">
        Front is the face toward the welder. Where you can, heat from one face and measure on the other. How far the
        heater reaches and how cold the air is are asked for where heat through the thickness is computed.
      </p>
    </fieldset>
  );
}
