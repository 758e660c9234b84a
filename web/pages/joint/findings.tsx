/** Findings as a list, with their empty state. */
import type { Assessment, Finding } from '../../../server/judgement/assessment.ts';
import type { Instant } from '../../../server/measure/quantity.ts';
import { findingText } from '../../../server/wording/finding.ts';
import { severityText } from '../../../server/wording/words.ts';
import { nearClockText } from '../../format/time.ts';
import { useShorter } from '../../parts/shorter.tsx';

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
