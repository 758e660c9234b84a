/** One procedure: the revision that holds, what it states, how it stands against its test piece, and what each revision changed. */
import { useSignal } from '@preact/signals';
import { Fragment } from 'preact';
import { useEffect } from 'preact/hooks';
import { comparedWithTest } from '../../../server/metallurgy/qualified-range.ts';
import { type KeptRevision, newestOf, revisionsOf } from '../../../server/weld/procedure-act.ts';
import { changedLines, changeText, statedLines } from '../../../server/wording/procedure.ts';
import { comparedText, qualifiedCaution } from '../../../server/wording/qualified.ts';
import { dayText } from '../../format/time.ts';
import { useTitle } from '../../parts/title.ts';
import { askProcedures, procedures } from '../../state/procedures.ts';
import { proceduresAddress, revisionAddress } from '../../state/route.ts';
import { QualifiedList } from '../new-joint/qualification-fields.tsx';
import { Changes } from './changes.tsx';
import { Withdraw } from './withdraw.tsx';

export function ProcedurePage({ procedure: id }: { readonly procedure: string }) {
  useTitle(`Procedure ${id}`);
  useEffect(() => void askProcedures(), []);
  const state = procedures.value;
  if (state.kind === 'loading') return <p class="notice">Asking the station for its procedures.</p>;
  if (state.kind === 'failed')
    return <p class="notice loud">The station does not answer. Open this page again later.</p>;
  const all = revisionsOf(state.value, id);
  const shown = newestOf(state.value, id) ?? all.at(-1);
  if (shown === undefined)
    return (
      <section class="sheet">
        <h1>No such procedure</h1>
        <p>
          This station keeps no procedure "{id}". <a href={proceduresAddress}>All procedures</a>
        </p>
      </section>
    );
  const { title } = shown.revision.procedure;
  return (
    <article class="stack" aria-labelledby="procedure-heading">
      <div class="joint-head">
        <h1 id="procedure-heading">Procedure {id}</h1>
        {title !== undefined && <p class="aside">{title}</p>}
        <span class="grow" />
        <a class="button act" href={revisionAddress(id)}>
          New revision
        </a>
      </div>
      <Revision of={shown} />
      <History all={all} />
    </article>
  );
}

function Revision({ of }: { readonly of: KeptRevision }) {
  const { revision, sha256, withdrawn } = of;
  const compared = comparedWithTest(revision).map((each) => comparedText(each, 'metric'));
  return (
    <section class="sheet" aria-labelledby="holds-heading">
      <div class="sheet-head">
        <h2 id="holds-heading">
          Revision {revision.procedure.revision} {withdrawn === undefined ? 'holds' : 'is withdrawn'}
        </h2>
        <a class="button" href={`/api/procedures/${sha256}/procedure.json`} download>
          Save as file
        </a>
      </div>
      <p class="aside">{recordedText(of)}</p>
      {withdrawn !== undefined && <p class="notice loud">{withdrawnText(withdrawn)}</p>}
      <dl class="facts">
        {statedLines(revision, 'metric').map(({ field, name, text }) => (
          <Fragment key={field}>
            <dt>{name}</dt>
            <dd>{text}</dd>
          </Fragment>
        ))}
        <dt>SHA-256</dt>
        <dd>
          <code>{sha256.slice(0, 16)}</code>
        </dd>
      </dl>
      <p class="hint">What is not listed is not stated, and is not judged.</p>
      {compared.length > 0 && (
        <>
          <h3>Against its test piece</h3>
          <QualifiedList list={compared} />
          <p class="hint">{qualifiedCaution}</p>
        </>
      )}
      {withdrawn === undefined && <Withdraw of={of} />}
    </section>
  );
}

/** Newest first, each with what it changed; any two can be held against each other. */
function History({ all }: { readonly all: readonly KeptRevision[] }) {
  const from = useSignal(0);
  const to = useSignal(all.length - 1);
  const older = all[Math.min(from.value, all.length - 1)]!;
  const newer = all[Math.min(to.value, all.length - 1)]!;
  const choice = (label: string, at: typeof from) => (
    <label>
      {label}{' '}
      <select value={String(at.value)} onChange={(event) => (at.value = Number(event.currentTarget.value))}>
        {all.map((each, index) => (
          <option key={each.sha256} value={String(index)}>
            {each.revision.procedure.revision}
          </option>
        ))}
      </select>
    </label>
  );
  return (
    <section class="sheet" aria-labelledby="revisions-heading">
      <h2 id="revisions-heading">Revisions</h2>
      <ol class="plain-list revisions" reversed>
        {all.toReversed().map((each) => {
          const before = all[all.indexOf(each) - 1];
          return (
            <li key={each.sha256}>
              <strong>Revision {each.revision.procedure.revision}</strong>
              {each.withdrawn !== undefined && <span class="tag">withdrawn</span>}
              <p>{recordedText(each)}</p>
              {each.withdrawn !== undefined && <p>{withdrawnText(each.withdrawn)}</p>}
              {before !== undefined && (
                <p class="aside">
                  Changed:{' '}
                  {changedLines(before.revision, each.revision, 'metric')
                    .map((line) => `${line.name} ${changeText(line)}`)
                    .join('; ') || 'no value'}
                </p>
              )}
            </li>
          );
        })}
      </ol>
      {all.length > 2 && (
        <>
          <h3>Two revisions side by side</h3>
          <p class="row wrap">
            {choice('From', from)} {choice('to', to)}
          </p>
        </>
      )}
      {all.length > 1 && <Changes before={older.revision} after={newer.revision} units="metric" />}
    </section>
  );
}

const recordedText = ({ at, who, role, reason }: KeptRevision): string =>
  `Recorded ${dayText(at)} by ${who}${role === undefined ? '' : `, ${role}`}${reason === undefined ? '' : `: ${reason}`}`;

const withdrawnText = ({ at, who, reason }: NonNullable<KeptRevision['withdrawn']>): string =>
  `Withdrawn ${dayText(at)} by ${who}: ${reason}. No new joint can be bound to it; joints that are bound keep it until they are changed over.`;
