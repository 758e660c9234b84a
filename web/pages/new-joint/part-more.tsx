/** Further facts of a part: those that the chosen code goes by in plain sight, the rest folded away. */
import { materialKinds, partForms, partSchema, pNumbers } from '../../../server/weld/part.ts';
import { begun } from '../../../server/wording/list.ts';
import { SelectField } from '../../parts/field.tsx';
import { anyFilled, More } from '../../parts/more.tsx';
import type { CodeAsks } from './code-asks.ts';
import { NumberField, orNone } from './number-field.tsx';
import type { PartProps } from './part-fields.tsx';

type Props = PartProps & { readonly asks: CodeAsks };

const categories = partSchema.shape.awsCategory.unwrap().options;

export function CodeOfPart({ asks, ...props }: Props) {
  if (!asks.awsCategory && !asks.pNumber) return null;
  return (
    <div class="fields">
      {asks.awsCategory && <Category {...props} />}
      {asks.pNumber && (
        <>
          <PNumber {...props} />
          <Tensile {...props} />
        </>
      )}
    </div>
  );
}

export function MoreOfPart({ asks, ...props }: Props) {
  const { entry, part, index, set } = props;
  const path = `parts.${index}`;
  const filled = [part.form, part.diameter, part.kind, part.yield];
  if (!asks.pNumber) filled.push(part.tensile, part.pNumber);
  if (!asks.awsCategory) filled.push(part.awsCategory);
  return (
    <More title="Form, kind of steel, strength" filled={anyFilled(...filled)}>
      <div class="fields">
        <SelectField
          label="Form"
          hint="Not stated counts as plate."
          value={part.form}
          choices={orNone(partForms, 'not stated', begun)}
          onValue={(form) => set({ form })}
        />
        <NumberField
          entry={entry}
          label="Outside diameter"
          kind="length"
          field={`${path}.outsideDiameterMillimetres`}
          hint="Of a tube or a bar."
          value={part.diameter}
          onValue={(diameter) => set({ diameter })}
        />
        <SelectField
          label="Kind of material"
          hint="For limits upward and waiting times."
          value={part.kind}
          choices={orNone(materialKinds)}
          onValue={(kind) => set({ kind })}
        />
        <NumberField
          entry={entry}
          label="Yield strength, at least"
          kind="strength"
          field={`${path}.yieldMegapascals`}
          optional="if known"
          value={part.yield}
          onValue={(value) => set({ yield: value })}
        />
        {!asks.pNumber && (
          <>
            <Tensile {...props} />
            <PNumber {...props} />
          </>
        )}
        {!asks.awsCategory && <Category {...props} />}
      </div>
    </More>
  );
}

const Category = ({ part, set }: PartProps) => (
  <SelectField
    label="Category in AWS D1.1"
    hint="Of the steel with the process, in the prequalified table."
    value={part.awsCategory}
    choices={orNone(categories)}
    onValue={(awsCategory) => set({ awsCategory })}
  />
);

const PNumber = ({ part, set }: PartProps) => (
  <SelectField
    label="P-number (ASME IX)"
    value={part.pNumber}
    choices={orNone(pNumbers, 'not stated', (value) => `P-No. ${value}`)}
    onValue={(pNumber) => set({ pNumber })}
  />
);

const Tensile = ({ entry, part, index, set }: PartProps) => (
  <NumberField
    entry={entry}
    label="Tensile strength, at least"
    kind="strength"
    field={`parts.${index}.tensileMegapascals`}
    optional="if known"
    hint="The specified minimum."
    value={part.tensile}
    onValue={(tensile) => set({ tensile })}
  />
);
