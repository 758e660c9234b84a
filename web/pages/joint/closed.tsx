/** A finished record: what was found, how far the judgement reaches, and what a person takes along. */
import { deviationCounts } from '../../../server/judgement/people/deviations.ts';
import { deviationCountText } from '../../../server/wording/deviation.ts';
import { unsettledText } from '../../../server/wording/repair.ts';
import { scopeText, verdictText } from '../../../server/wording/verdict.ts';
import type { LiveJoint } from '../../feed/live-joint.ts';
import { whatIfAddress } from '../../state/route.ts';

export function Closed({ live }: { readonly live: LiveJoint }) {
  const { assessment } = live;
  const unsettled = unsettledText(live.repairs ?? []);
  const told = assessment.findings.filter((finding) => finding.severity !== 'remark').length;
  const decided = deviationCountText(deviationCounts(assessment.findings));
  return (
    <section class="sheet what-was-found" aria-labelledby="closed-heading">
      <h2 id="closed-heading">What was found</h2>
      <p>{verdictText(assessment)}</p>
      {unsettled !== undefined && <p class="notice loud">{unsettled}.</p>}
      <p>{scopeText(assessment)}</p>
      {told > 0 && (
        <p>
          {told === 1 ? 'One finding stands' : `${told} findings stand`} under Findings
          {decided === '' ? '' : `; deviations: ${decided}`}.
        </p>
      )}
      <p class="aside">Nothing more is recorded for this joint.</p>
      <a class="button" href={whatIfAddress(live.joint.id)}>
        What if
      </a>
    </section>
  );
}
