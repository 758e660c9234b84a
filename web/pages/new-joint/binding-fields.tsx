/** Which procedure the joint goes by: a recorded one, whose values are only read here, one typed by hand, or none. */
import { useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import { type KeptRevision, newestOf } from '../../../server/weld/procedure-act.ts';
import { revisionText } from '../../../server/wording/procedure.ts';
import { ChoiceField, SelectField, TextField } from '../../parts/field.tsx';
import { askProcedures, procedures } from '../../state/procedures.ts';
import { newProcedureAddress, proceduresAddress, revisionAddress } from '../../state/route.ts';
import type { Entry } from './entry.tsx';
import { Locked } from './locked.tsx';
import { withoutRecorded, withRecorded } from './procedure-draft.ts';
import { ProcedureValues } from './procedure-values.tsx';

type How = 'recorded' | 'by hand' | 'none';

export function Binding({ entry }: { readonly entry: Entry }) {
  const { procedure, recorded } = entry.draft;
  const wantsRecorded = useSignal(false);
  useEffect(() => void askProcedures(), []);
  const how: How = recorded !== undefined || wantsRecorded.value ? 'recorded' : procedure.bound ? 'by hand' : 'none';
  const choose = (next: How): void => {
    wantsRecorded.value = next === 'recorded';
    const free = withoutRecorded(entry.draft);
    if (next !== 'recorded') entry.replace({ ...free, procedure: { ...procedure, bound: next === 'by hand' } });
  };
  return (
    <>
      <ChoiceField<How>
        label="Welding procedure"
        value={how}
        choices={[
          { value: 'recorded', text: 'One that is recorded here' },
          { value: 'by hand', text: 'Entered by hand' },
          { value: 'none', text: 'None: the calculation governs' },
        ]}
        onValue={choose}
      />
      {how === 'recorded' && <Choose entry={entry} />}
      {procedure.bound && (
        <>
          <Locked entry={entry}>
            <div class="fields">
              <Named entry={entry} />
            </div>
          </Locked>
          <Locked entry={entry}>
            <ProcedureValues entry={entry} />
          </Locked>
        </>
      )}
    </>
  );
}

function Choose({ entry }: { readonly entry: Entry }) {
  const { recorded } = entry.draft;
  const state = procedures.value;
  if (state.kind === 'loading') return <p class="notice">Asking the station for its procedures.</p>;
  if (state.kind === 'failed')
    return <p class="notice">The station does not answer; its procedures cannot be shown.</p>;
  const open = state.value.filter((each) => each.withdrawn === undefined).toReversed();
  if (open.length === 0 && recorded === undefined)
    return (
      <p class="notice">
        No procedure is recorded here yet. <a href={newProcedureAddress}>Record one</a>, then choose it; or enter its
        values by hand. What is typed here is kept meanwhile.
      </p>
    );
  const known = open.some(({ sha256 }) => sha256 === recorded?.sha256);
  return (
    <>
      <SelectField
        label="Procedure and revision"
        field="boundRevision"
        problem={entry.problem('boundRevision')}
        value={recorded?.sha256 ?? ''}
        choices={[
          ...(recorded === undefined ? [{ value: '', text: 'Choose' }] : []),
          ...(recorded === undefined || known
            ? []
            : [{ value: recorded.sha256, text: `${revisionText(recorded.revision)} (bound before)` }]),
          ...open.map((each) => ({ value: each.sha256, text: optionText(each, state.value) })),
        ]}
        onValue={(sha256) => {
          entry.touch('boundRevision');
          const found = open.find((each) => each.sha256 === sha256);
          if (found !== undefined) entry.replace(withRecorded(entry.draft, found.revision, sha256));
        }}
      />
      {recorded !== undefined && (
        <p class="notice">
          These values are those of {revisionText(recorded.revision)} as it is recorded; they cannot be changed here.
          For other values <a href={revisionAddress(recorded.revision.procedure.id)}>record a new revision</a> with its
          reason, then choose it. <a href={proceduresAddress}>All procedures</a>
        </p>
      )}
    </>
  );
}

const optionText = (each: KeptRevision, all: readonly KeptRevision[]): string => {
  const { id, title } = each.revision.procedure;
  const older = newestOf(all, id) === each ? '' : ' (an older revision)';
  return `${revisionText(each.revision)}${title === undefined ? '' : `: ${title}`}${older}`;
};

function Named({ entry }: { readonly entry: Entry }) {
  const { procedure } = entry.draft;
  const field = (label: string, name: 'id' | 'revision') => (
    <TextField
      label={label}
      field={`procedure.${name}`}
      value={procedure[name]}
      problem={entry.problem(`procedure.${name}`)}
      onValue={(value) => {
        entry.touch(`procedure.${name}`);
        entry.change({ procedure: { ...procedure, [name]: value } });
      }}
    />
  );
  return (
    <>
      {field('Procedure', 'id')}
      {field('Revision', 'revision')}
    </>
  );
}
