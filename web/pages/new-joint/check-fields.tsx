/** Checks before welding and points of inspection: what the procedure asks for, what blocks, and whose word counts. */
import { checkRoles, pointRoles, pointTimes } from '../../../server/weld/checks.ts';
import { begun } from '../../../server/wording/list.ts';
import { SelectField, TextField } from '../../parts/field.tsx';
import { More } from '../../parts/more.tsx';
import {
  type CheckDraft,
  type ChecksDraft,
  freshCheck,
  freshPoint,
  missingUsual,
  type PointDraft,
} from './check-draft.ts';
import type { Entry } from './entry.tsx';

const weights = [
  { value: 'blocks', text: 'Blocks: before the arc' },
  { value: 'warns', text: 'Warns' },
];
const choices = (list: readonly string[]) => list.map((value) => ({ value, text: begun(value) }));
const anybody = [{ value: '', text: 'Anybody on the job' }, ...choices(checkRoles)];

export function CheckFields({ entry }: { readonly entry: Entry }) {
  const { checking } = entry.draft;
  const { checks, points } = checking;
  const set = (part: Partial<ChecksDraft>): void => entry.change({ checking: { ...checking, ...part } });
  const usual = missingUsual(checking);
  return (
    <More
      title="Checks and hold points"
      about="what is looked at before welding, and who releases it"
      filled={checks.length + points.length > 0}
    >
      {checks.map((check, index) => (
        <CheckRow
          key={index}
          entry={entry}
          check={check}
          index={index}
          set={(part) => set({ checks: replaced(checks, index, part) })}
          drop={() => set({ checks: checks.filter((_, nth) => nth !== index) })}
        />
      ))}
      {points.map((point, index) => (
        <PointRow
          key={index}
          entry={entry}
          point={point}
          index={index}
          set={(part) => set({ points: replaced(points, index, part) })}
          drop={() => set({ points: points.filter((_, nth) => nth !== index) })}
        />
      ))}
      <div class="row">
        {usual.length > 0 && (
          <button type="button" onClick={() => set({ checks: [...checks, ...usual] })}>
            Add the usual checks
          </button>
        )}
        <button type="button" onClick={() => set({ checks: [...checks, freshCheck(checking)] })}>
          Add a check
        </button>
        <button type="button" onClick={() => set({ points: [...points, freshPoint(checking)] })}>
          Add a hold or witness point
        </button>
      </div>
    </More>
  );
}

const replaced = <T,>(list: readonly T[], index: number, part: Partial<T>): readonly T[] =>
  list.map((each, nth) => (nth === index ? { ...each, ...part } : each));

interface Row<T> {
  readonly entry: Entry;
  readonly index: number;
  readonly set: (part: Partial<T>) => void;
  readonly drop: () => void;
}

function CheckRow({ entry, check, index, set, drop }: Row<CheckDraft> & { readonly check: CheckDraft }) {
  const field = `procedure.checks.${index}.text`;
  return (
    <div class="fields">
      <TextField
        label={`Check ${index + 1}`}
        field={field}
        value={check.text}
        problem={entry.problem(field)}
        wide
        onValue={(text) => {
          entry.touch(field);
          set({ text });
        }}
      />
      <SelectField label="Weight" value={check.weight} choices={weights} onValue={(weight) => set({ weight })} />
      <SelectField label="Answered by" value={check.role} choices={anybody} onValue={(role) => set({ role })} />
      <button type="button" class="plain" onClick={drop}>
        Leave out check {index + 1}
      </button>
    </div>
  );
}

function PointRow({ entry, point, index, set, drop }: Row<PointDraft> & { readonly point: PointDraft }) {
  const text = (label: string, name: 'id' | 'text' | 'pass', optional: boolean) => {
    const field = `procedure.points.${index}.${name}`;
    return (
      <TextField
        label={label}
        field={field}
        value={point[name]}
        problem={entry.problem(field)}
        {...(optional ? { optional: true } : {})}
        onValue={(value) => {
          entry.touch(field);
          set({ [name]: value });
        }}
      />
    );
  };
  return (
    <div class="fields">
      {text(`Point ${index + 1}`, 'id', false)}
      {text('What for', 'text', true)}
      <SelectField
        label="Kind"
        value={point.kind}
        choices={[
          { value: 'hold', text: 'Hold: work stops' },
          { value: 'witness', text: 'Witness: may attend' },
        ]}
        onValue={(kind) => set({ kind })}
      />
      <SelectField
        label="Before"
        value={point.before}
        choices={pointTimes.map((value) => ({
          value: value as string,
          text: value === 'pass' ? 'a named pass' : value,
        }))}
        onValue={(before) => set({ before })}
      />
      {point.before === 'pass' && text('Before pass', 'pass', false)}
      <SelectField
        label="Released by"
        value={point.role}
        choices={choices(pointRoles)}
        onValue={(role) => set({ role })}
      />
      <button type="button" class="plain" onClick={drop}>
        Leave out point {index + 1}
      </button>
    </div>
  );
}
