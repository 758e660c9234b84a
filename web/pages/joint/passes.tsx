/** Passes and findings as tables, with their empty states. */
import type { Assessment, Finding } from '../../../server/judgement/assessment.ts';
import type { PassStatus } from '../../../server/judgement/pass-status.ts';
import type { Instant } from '../../../server/measure/quantity.ts';
import { findingText } from '../../../server/wording/finding.ts';
import { handValueText } from '../../../server/wording/instrument.ts';
import { begun } from '../../../server/wording/list.ts';
import { conditionName, severityText } from '../../../server/wording/words.ts';
import { nearClockText } from '../../format/time.ts';
import { useShorter } from '../../parts/shorter.tsx';

export function Passes({ assessment, now }: { readonly assessment: Assessment; readonly now: Instant }) {
  const [passes, more] = useShorter(assessment.passes, 'passes');
  return (
    <section class="sheet" aria-labelledby="passes-heading">
      <div class="sheet-head">
        <h2 id="passes-heading">Passes</h2>
      </div>
      {assessment.passes.length === 0 ? (
        <p class="empty">
          No pass yet. When the arc is struck, press "Start pass": the temperatures of that moment are judged and kept.
        </p>
      ) : (
        <div class="scroll-x">
          <table>
            <thead>
              <tr>
                <th scope="col">Pass</th>
                <th scope="col">Started, ended</th>
                <th scope="col">Coldest at start</th>
                <th scope="col">Interpass</th>
                <th scope="col">Judged</th>
              </tr>
            </thead>
            <tbody>
              {passes.map((pass) => (
                <PassRow key={`${pass.pass} ${pass.startedAt}`} pass={pass} assessment={assessment} now={now} />
              ))}
            </tbody>
          </table>
        </div>
      )}
      {more}
    </section>
  );
}

function PassRow({
  pass,
  assessment,
  now,
}: {
  readonly pass: PassStatus;
  readonly assessment: Assessment;
  readonly now: Instant;
}) {
  const { limits } = assessment;
  const { units } = assessment.requirement;
  const wrong = pass.minimum === 'not met' || pass.maximum === 'not met' || pass.outside.length > 0;
  return (
    <tr class={wrong ? 'wrong' : ''}>
      <th scope="row">
        {pass.pass}
        <span class="place">
          {begun(pass.passKind)}, {pass.welder}
          {pass.details.side === undefined ? '' : `, side ${pass.details.side}`}
          {pass.details.where === undefined ? '' : `, ${pass.details.where}`}
        </span>
      </th>
      <td>
        {nearClockText(pass.startedAt, now)}
        <span class="place">{pass.endedAt === undefined ? 'running' : `to ${nearClockText(pass.endedAt, now)}`}</span>
        {pass.enteredAt - pass.startedAt > 1000 && (
          <span class="place">entered {nearClockText(pass.enteredAt, now)}</span>
        )}
      </td>
      <td>
        {pass.coldestAtStart === undefined
          ? 'not known'
          : handValueText(pass.coldestAtStart, units, { limit: limits.preheatMinimum })}
        <span class="place">{pass.coldestAtStart?.probe ?? ''}</span>
      </td>
      <td>
        {pass.interpass === undefined
          ? pass.maximum === 'not needed'
            ? 'not needed'
            : 'not known'
          : handValueText(pass.interpass, units, { limit: limits.interpassMaximum })}
        <span class="place">
          {pass.interpass === undefined
            ? ''
            : `${pass.interpass.probe}${pass.interpass.by === 'contact' ? ', by hand' : ''}`}
        </span>
      </td>
      <td>
        Minimum {pass.minimum}
        {pass.maximum !== 'not needed' && `, maximum ${pass.maximum}`}
        {pass.outside.length > 0 && (
          <span class="place loud">
            begun outside: {pass.outside.map((id) => conditionName(id).toLowerCase()).join(', ')}
          </span>
        )}
      </td>
    </tr>
  );
}

const rank: Readonly<Record<Finding['severity'], number>> = { nonconformity: 0, 'not judged': 1, remark: 2 };

/** Findings that say that a probe may not read what it should. */
const doubts: ReadonlySet<Finding['kind']> = new Set<Finding['kind']>([
  'intermittent',
  'running away',
  'rises faster than steel',
  'far face not as computed',
  'ambient check failed',
  'probe suspect',
]);

export function Findings({
  assessment,
  now,
  openProbe,
}: {
  readonly assessment: Assessment;
  readonly now: Instant;
  /** Where something can still be done about a probe. */
  readonly openProbe?: (probe: string) => void;
}) {
  const isDoubted = ({ kind, probe, to }: Finding): boolean =>
    probe !== undefined &&
    to === undefined &&
    doubts.has(kind) &&
    assessment.probes.some((each) => each.probe === probe && each.distrusted === undefined);
  // Gravest last in the list that is cut from its front, then turned, so that the cut never hides them.
  const sorted = assessment.findings.toSorted((a, b) => rank[b.severity] - rank[a.severity] || b.from - a.from);
  const [last, more] = useShorter(sorted, 'findings');
  const findings = last.toReversed();
  return (
    <section class="sheet" aria-labelledby="findings-heading">
      <div class="sheet-head">
        <h2 id="findings-heading">Findings</h2>
      </div>
      {findings.length === 0 ? (
        <p class="empty">None. What breaks a limit, or could not be judged, is listed here with its time and number.</p>
      ) : (
        <ul class="findings">
          {findings.map((finding) => {
            const words = findingText(finding, assessment.requirement.units);
            return (
              <li key={finding.key} class={finding.severity.replace(' ', '-')}>
                <p>
                  <span class="severity">{severityText(finding.severity)}</span> <strong>{words.what}</strong>
                </p>
                <p class="aside">
                  {nearClockText(finding.from, now)}
                  {finding.to === undefined
                    ? ', still so'
                    : finding.to === finding.from
                      ? ''
                      : ` to ${nearClockText(finding.to, now)}`}
                  . {words.why} {words.first}
                </p>
                {openProbe !== undefined && isDoubted(finding) && (
                  <button type="button" onClick={() => openProbe(finding.probe!)}>
                    Doubt {finding.probe}
                  </button>
                )}
              </li>
            );
          })}
        </ul>
      )}
      {more}
    </section>
  );
}
