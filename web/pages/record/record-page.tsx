/** The record of a joint as a list: every entry, newest first, with who and when. */

import { useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import { unitsOf } from '../../../server/measure/units.ts';
import type { JointState, TimelineEvent } from '../../../server/screen/contract.ts';
import type { ImportedFile } from '../../../server/weld/imported.ts';
import { passedOverText } from '../../../server/wording/imported.ts';
import { readingsAwayText } from '../../../server/wording/removal.ts';
import { nameText, proofText } from '../../../server/wording/signed.ts';
import { sourceMark, sourceText } from '../../../server/wording/words.ts';
import { getJson } from '../../feed/http.ts';
import { clockText, dayText, zoneText } from '../../format/time.ts';
import { PaperLinks } from '../../parts/paper-links.tsx';
import { useTitle } from '../../parts/title.ts';
import { jointAddress, requirementAddress, whatIfAddress } from '../../state/route.ts';
import { entryLine } from './entry-line.ts';

export function RecordPage({ joint }: { readonly joint: string }) {
  const entries = useSignal<readonly TimelineEvent[] | 'loading' | 'failed'>('loading');
  useTitle(`Record of ${joint}`);
  const state = useSignal<JointState | undefined>(undefined);
  const chosen = useSignal('all');
  const ask = async (): Promise<void> => {
    const path = `/api/joints/${encodeURIComponent(joint)}`;
    const [answer, whole] = await Promise.all([
      getJson<readonly TimelineEvent[]>(`${path}/timeline`),
      getJson<JointState>(path),
    ]);
    if (whole.kind === 'ok') state.value = whole.value;
    if (answer.kind === 'ok') entries.value = answer.value;
    else if (entries.peek() === 'loading') entries.value = 'failed';
  };
  useEffect(() => {
    void ask();
  }, [joint]);
  const all = entries.value;
  if (all === 'loading') return <p class="notice">Asking the station for the record.</p>;
  if (all === 'failed')
    return <p class="notice loud">The record could not be fetched. Go back to the joint and try again.</p>;
  const kinds = [...new Set(all.map((entry) => entry.kind))].sort();
  const shown = all.filter((entry) => chosen.value === 'all' || entry.kind === chosen.value).toReversed();
  return (
    <section class="sheet" aria-labelledby="record-title">
      <div class="sheet-head">
        <h1 id="record-title">Record of {state.value?.joint.title ?? joint}</h1>
        <a class="button" href={jointAddress(joint)}>
          Back to the joint
        </a>
        <a class="button" href={requirementAddress(joint)}>
          How hot, and why
        </a>
        <a class="button" href={whatIfAddress(joint)}>
          What if
        </a>
        <PaperLinks path={`/api/joints/${encodeURIComponent(joint)}`} />
      </div>
      {state.value !== undefined && sourceMark(state.value.assessment.source) !== undefined && (
        <p class="banner source">{sourceText(state.value.assessment.source)}</p>
      )}
      {state.value !== undefined && (
        <p class="aside head-line">
          {state.value.entries} entries, head <code>{state.value.headHash}</code>
        </p>
      )}
      {state.value?.readingsRemoved !== undefined && (
        <p class="notice readings-away">{readingsAwayText(joint, state.value.readingsRemoved, zone())}</p>
      )}
      {all[0]?.kept !== undefined && (
        <p>
          All entries were written on {dayText(all[0].kept.at)} at {clockText(all[0].kept.at)} by{' '}
          {nameText(all[0].kept)}. The times below are those of the log.
        </p>
      )}
      <div class="row wrap">
        <label class="inline-label">
          Show{' '}
          <select
            value={chosen.value}
            onChange={(event) => {
              chosen.value = event.currentTarget.value;
            }}
          >
            <option value="all">all entries ({all.length})</option>
            {kinds.map((kind) => (
              <option key={kind} value={kind}>
                {kind}
              </option>
            ))}
          </select>
        </label>
        <button type="button" class="plain" onClick={() => void ask()}>
          Bring up to date
        </button>
      </div>
      {shown.length === 0 ? (
        <p class="empty">Nothing recorded yet.</p>
      ) : (
        <div class="scroll-x">
          <table>
            <thead>
              <tr>
                <th scope="col" class="number">
                  No
                </th>
                <th scope="col">When ({zoneText(shown[0]!.at)})</th>
                <th scope="col">Who</th>
                <th scope="col">What</th>
              </tr>
            </thead>
            <tbody>
              {shown.map((entry) => (
                <tr key={entry.seq}>
                  <td class="number">{entry.seq}</td>
                  <td>
                    {clockText(entry.at)}
                    {entry.kept !== undefined && <span class="place">by the log</span>}
                    <span class="place">{dayText(entry.at)}</span>
                  </td>
                  <td>
                    {nameText(entry)}
                    <span class="place">
                      {entry.kept === undefined || entry.kept.who === entry.who
                        ? proofText(entry.proof)
                        : 'as told with the log'}
                    </span>
                  </td>
                  <td>
                    {entryLine(entry, state.value === undefined ? 'metric' : unitsOf(state.value.joint))}
                    <Kept joint={joint} entry={entry} />
                  </td>
                </tr>
              ))}
            </tbody>
          </table>
        </div>
      )}
    </section>
  );
}

const zone = (): string => Intl.DateTimeFormat().resolvedOptions().timeZone;

/** The way to a kept document. It is handed out as a file and never shown as a page. */
function Kept({ joint, entry }: { readonly joint: string; readonly entry: TimelineEvent }) {
  if (entry.kind === 'imported file') return <PassedOver file={entry.body as ImportedFile} />;
  const { sha256 } = (entry.kind === 'attach' ? entry.body : {}) as { readonly sha256?: unknown };
  if (typeof sha256 !== 'string') return null;
  return (
    <a class="place" href={`/api/joints/${encodeURIComponent(joint)}/documents/${sha256}`} download>
      Fetch the document
    </a>
  );
}

function PassedOver({ file: { passedOver = [] } }: { readonly file: ImportedFile }) {
  if (passedOver.length === 0) return null;
  return (
    <details>
      <summary>Lines that were passed over ({passedOver.length})</summary>
      <ul>
        {passedOver.map((each) => (
          <li key={passedOverText(each)}>{passedOverText(each)}</li>
        ))}
      </ul>
    </details>
  );
}
