/** The background that a repair needs: what was found, in which metal, why, how it was taken out, and the heat treatment around it. */
import { readNumber } from '../../../server/measure/number-text.ts';
import { examinationMethods } from '../../../server/weld/break.ts';
import { excavationMethods, repairedMetals } from '../../../server/weld/repair.ts';
import { begun } from '../../../server/wording/list.ts';
import { SelectField, TextField } from '../../parts/field.tsx';
import type { Entry } from './entry.tsx';
import { NumberField } from './number-field.tsx';
import { type RepairDraft, suggestedWidth } from './repair-draft.ts';

export function RepairFields({ entry }: { readonly entry: Entry }) {
  const { repair, parts, units } = entry.draft;
  if (repair === undefined) return null;
  const set = (part: Partial<RepairDraft>): void => entry.change({ repair: { ...repair, ...part } });
  const words = (label: string, name: 'found' | 'cause' | 'before' | 'after', path: string, hint?: string) => (
    <TextField
      label={label}
      field={`repairOf.${path}`}
      value={repair[name]}
      problem={entry.problem(`repairOf.${path}`)}
      {...(hint === undefined ? {} : { hint })}
      wide
      onValue={(value) => {
        entry.touch(`repairOf.${path}`);
        set({ [name]: value });
      }}
    />
  );
  const choice = (
    label: string,
    name: 'metal' | 'method' | 'examinedBy' | 'result',
    list: readonly string[],
    path: string,
  ) => (
    <SelectField
      label={label}
      field={`repairOf.${path}`}
      value={repair[name]}
      problem={entry.problem(`repairOf.${path}`)}
      choices={[
        ...(repair[name] === '' ? [{ value: '', text: 'Choose' }] : []),
        ...list.map((value) => ({ value, text: begun(value) })),
      ]}
      onValue={(value) => set({ [name]: value })}
    />
  );
  const length = (label: string, name: 'depth' | 'length' | 'width', path: string, hint?: string) => (
    <NumberField
      entry={entry}
      label={label}
      kind="length"
      field={`repairOf.${path}`}
      value={repair[name]}
      {...(hint === undefined ? {} : { hint })}
      onValue={(value) => set({ [name]: value })}
    />
  );
  const metric = parts.map(({ thickness }) => {
    const read = readNumber(thickness);
    return { thicknessMillimetres: read.kind === 'number' ? read.value : Number.NaN };
  });
  const width = units === 'inch' ? undefined : suggestedWidth(metric);
  return (
    <fieldset class="group">
      <legend>Repair of {repair.joint}</legend>
      <p class="hint">
        A repair is held by the part around it: state its restraint anew below; high is suggested. Steel, probes and
        procedure stand as in the joint: look through them, since a repair often has a procedure of its own.
      </p>
      <div class="fields">
        {words('What was found', 'found', 'found')}
        {choice('Metal', 'metal', repairedMetals, 'metal')}
        {words('Cause', 'cause', 'cause', 'As far as it is known; say so where it is not.')}
        {choice('Taken out by', 'method', excavationMethods, 'excavation.method')}
        {length('Depth', 'depth', 'excavation.depthMillimetres')}
        {length('Length', 'length', 'excavation.lengthMillimetres')}
        {choice('Excavation examined by', 'examinedBy', examinationMethods, 'excavation.examinedBy')}
        {choice('It is', 'result', ['free of defects', 'not free of defects', 'not examined yet'], 'excavation.result')}
        {words('Heat treatment before', 'before', 'heatTreatment.before', '"none" where it has had none.')}
        {words('Heat treatment after', 'after', 'heatTreatment.after', '"none" where none follows.')}
        {length(
          'Preheat reaches from the excavation',
          'width',
          'preheatWidthMillimetres',
          width === undefined
            ? 'In every direction.'
            : `In every direction. The widest that a code asks for at this thickness: ${width} mm.`,
        )}
      </div>
    </fieldset>
  );
}
