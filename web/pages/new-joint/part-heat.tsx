/** What heat through the thickness of a part goes by: what lies behind it, and how its steel conducts. */
import { steels } from '../../../server/conduction/steel/list.ts';
import { type FarSide, farSides, type ThermalKind, thermalKinds } from '../../../server/weld/part.ts';
import { begun } from '../../../server/wording/list.ts';
import { SelectField } from '../../parts/field.tsx';
import { anyFilled, More } from '../../parts/more.tsx';
import { orNone } from './number-field.tsx';
import type { PartProps } from './part-fields.tsx';

export function HeatOfPart({ part, index, set }: PartProps) {
  return (
    <More
      title="Heat through the thickness"
      about="far side, thermal properties"
      filled={anyFilled(part.farSide, part.conductsAs)}
    >
      <div class="fields">
        <SelectField
          label="Behind the far face"
          field={`parts.${index}.farSide`}
          hint="The face that is not heated: what takes its heat. Not chosen counts as a draught."
          value={part.farSide}
          choices={orNone(farSides, 'not chosen', (side) => farSideWords[side as FarSide])}
          onValue={(farSide) => set({ farSide })}
        />
        <SelectField
          label="Conducts heat as"
          field={`parts.${index}.conductsAs`}
          hint="Not chosen: by the kind of material, else by the analysis."
          value={part.conductsAs}
          choices={orNone(thermalKinds, 'not chosen', (kind) => begun(steels[kind as ThermalKind].name))}
          onValue={(conductsAs) => set({ conductsAs })}
        />
      </div>
    </More>
  );
}

const farSideWords: Readonly<Record<FarSide, string>> = {
  insulated: 'Insulation, lying tight',
  'still air': 'Still air',
  draught: 'Draught or wind',
  unknown: 'Not known (counts as draught)',
  'colder mass or fluid': 'A colder mass or a fluid: a probe there must tell',
};
