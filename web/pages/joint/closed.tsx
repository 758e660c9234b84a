/** A finished record: what was found, how far the judgement reaches, and what a person takes along. */
import { unsettledText } from '../../../server/wording/repair.ts';
import { scopeText, verdictText } from '../../../server/wording/verdict.ts';
import type { LiveJoint } from '../../feed/live-joint.ts';

export function Closed({ live }: { readonly live: LiveJoint }) {
  const { assessment } = live;
  const unsettled = unsettledText(live.repairs ?? []);
  const open = assessment.findings.filter((finding) => finding.severity !== 'remark').length;
  return (
    <section class="sheet closed" aria-labelledby="closed-heading">
      <h2 id="closed-heading">What was found</h2>
      <p>{verdictText(assessment)}</p>
      {unsettled !== undefined && <p class="notice loud">{unsettled}.</p>}
      <p>{scopeText(assessment)}</p>
      {open > 0 && (
        <p>{open === 1 ? 'One point is open; it stands' : `${open} points are open; they stand`} under Findings.</p>
      )}
      <p class="aside">Nothing more is recorded for this joint.</p>
    </section>
  );
}
