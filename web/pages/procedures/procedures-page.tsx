/** Every procedure that the station keeps, each with the revision that holds. */
import { useEffect } from 'preact/hooks';
import type { UnitSystem } from '../../../server/measure/units.ts';
import { type KeptRevision, newestOf, revisionsOf } from '../../../server/weld/procedure-act.ts';
import { statedLines } from '../../../server/wording/procedure.ts';
import { dayText } from '../../format/time.ts';
import { useTitle } from '../../parts/title.ts';
import { askProcedures, procedures } from '../../state/procedures.ts';
import { newProcedureAddress, procedureAddress } from '../../state/route.ts';

export function ProceduresPage() {
  useTitle('Procedures');
  useEffect(() => void askProcedures(), []);
  const state = procedures.value;
  if (state.kind === 'loading') return <p class="notice">Asking the station for its procedures.</p>;
  if (state.kind === 'failed')
    return <p class="notice loud">The station does not answer. Check that it runs, then open this page again.</p>;
  const ids = [...new Set(state.value.map((each) => each.revision.procedure.id))].sort();
  return (
    <section class="stack" aria-labelledby="procedures-heading">
      <div class="joint-head">
        <h1 id="procedures-heading">Procedures</h1>
        <p class="aside">Each revision is recorded whole and never changed. A joint is bound to one revision.</p>
        <span class="grow" />
        {ids.length > 0 && (
          <a class="button act" href={newProcedureAddress}>
            Record a procedure
          </a>
        )}
      </div>
      {ids.length === 0 ? (
        <div class="sheet empty-page">
          <h2>No procedure yet</h2>
          <p>
            Record a welding procedure once, with its limits and the test piece that qualifies it. Each new joint can
            then be bound to it with one tap, and whoever changes the procedure later makes a new revision, with a
            reason. Limits that were entered with a single joint stand on that joint's page, under its requirement.
          </p>
          <a class="button act" href={newProcedureAddress}>
            Record the first procedure
          </a>
        </div>
      ) : (
        <ul class="procedures plain-list">
          {ids.map((id) => (
            <ProcedureRow key={id} id={id} kept={state.value} />
          ))}
        </ul>
      )}
    </section>
  );
}

function ProcedureRow({ id, kept }: { readonly id: string; readonly kept: readonly KeptRevision[] }) {
  const all = revisionsOf(kept, id);
  const holds = newestOf(kept, id);
  const shown = holds ?? all.at(-1)!;
  const { title, revision } = shown.revision.procedure;
  return (
    <li class="sheet">
      <a class="procedure-link" href={procedureAddress(id)}>
        <strong>{id}</strong>
        <span>{title ?? ''}</span>
      </a>
      <p>
        {holds === undefined ? <span class="tag">withdrawn</span> : `Revision ${revision} holds`}, recorded{' '}
        {dayText(shown.at)} by {shown.who}
        {all.length > 1 && `; ${all.length} revisions`}
      </p>
      <p class="aside">{inShort(shown, 'metric')}</p>
    </li>
  );
}

/** The temperatures that whoever looks for a procedure knows it by. */
const inShort = ({ revision }: KeptRevision, units: UnitSystem): string => {
  const lines = statedLines(revision, units).filter(({ field }) => telling.includes(field));
  return lines.length === 0 ? 'no temperature stated' : lines.map(({ name, text }) => `${name} ${text}`).join(', ');
};
const telling = [
  'procedure.preheatMinimumCelsius',
  'procedure.interpassMaximumCelsius',
  'postHeating.celsius',
  'codeSet',
  'procedure.qualification.record',
];
