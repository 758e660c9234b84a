/** The shift handed over: every open joint, worst first, with where it stands, what is open, how long it may, what next; both sign. */
import { useEffect } from 'preact/hooks';
import type { JointSummary } from '../../../server/screen/contract.ts';
import { handOverText } from '../../../server/wording/hand-over.ts';
import { sourceMark } from '../../../server/wording/words.ts';
import { bound } from '../../format/bound.ts';
import { clockMinuteText, dayText } from '../../format/time.ts';
import { useTitle } from '../../parts/title.ts';
import { joints, watchJoints } from '../../state/joints.ts';
import { jointAddress } from '../../state/route.ts';
import { serverSecond } from '../../state/station.ts';
import { overviewRows } from '../overview/overview-model.ts';
import { Signing } from './signing.tsx';

export function HandOverPage() {
  useTitle('Hand-over');
  useEffect(() => watchJoints(), []);
  const state = joints.value;
  const now = serverSecond.value;
  if (state.kind !== 'there') return <p class="notice">Asking the station for its joints.</p>;
  const { open } = state.value;
  const order = overviewRows(open).map(({ id }) => id);
  const list = open.toSorted((a, b) => order.indexOf(a.id) - order.indexOf(b.id));
  return (
    <article class="hand-over" aria-labelledby="hand-over-title">
      <div class="joint-head">
        <h1 id="hand-over-title">Hand-over</h1>
        {now !== undefined && (
          <p class="aside">
            {dayText(now)}, {clockMinuteText(now)}
          </p>
        )}
        <button type="button" class="plain no-print" onClick={() => print()}>
          Print this page
        </button>
      </div>
      {list.length === 0 && <p class="sheet">No joint is open: there is nothing to hand over.</p>}
      {list.map((each) => (
        <OneJoint key={each.id} summary={each} />
      ))}
      {list.length > 0 && <Signing joints={list} />}
    </article>
  );
}

function OneJoint({ summary: { id, title, assessment } }: { readonly summary: JointSummary }) {
  const { stands, open, howLong, next } = handOverText(assessment);
  const mark = sourceMark(assessment.source);
  const pdf = `/api/joints/${encodeURIComponent(id)}/hand-over.pdf?zone=${encodeURIComponent(Intl.DateTimeFormat().resolvedOptions().timeZone)}`;
  return (
    <section class="sheet" aria-label={title}>
      <div class="sheet-head">
        <h2>
          <a href={jointAddress(id)}>{title}</a>
        </h2>
        {mark !== undefined && <p class="aside">{mark}</p>}
        <a class="button no-print" href={pdf} target="_blank" rel="noreferrer">
          Hand-over (PDF)
        </a>
      </div>
      <dl class="handed">
        <Lines name="Where it stands" lines={stands} none="" />
        <Lines name="What is open" lines={open} none="Nothing that the judge knows of" />
        <Lines name="How long it may stand" lines={howLong} none="Cannot be told" />
        <Lines name="What comes next" lines={next} none="Nothing more is asked for" />
      </dl>
    </section>
  );
}

function Lines({
  name,
  lines,
  none,
}: {
  readonly name: string;
  readonly lines: readonly string[];
  readonly none: string;
}) {
  return (
    <div>
      <dt>{name}</dt>
      <dd>
        {lines.length === 0 ? (
          none
        ) : (
          <ul>
            {lines.map((line) => (
              <li key={line}>{bound(line)}</li>
            ))}
          </ul>
        )}
      </dd>
    </div>
  );
}
