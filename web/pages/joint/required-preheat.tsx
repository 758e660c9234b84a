/** What the joint needs, with the way to the reason. */
import type { LiveJoint } from '../../feed/live-joint.ts';
import { RequirementView } from '../../parts/requirement.tsx';
import { requirementAddress } from '../../state/route.ts';

export const RequiredPreheat = ({ live: { assessment, joint } }: { readonly live: LiveJoint }) => (
  <section class="sheet" aria-labelledby="requirement-heading">
    <div class="sheet-head">
      <h2 id="requirement-heading">Required preheat</h2>
      <a class="button" href={requirementAddress(joint.id)}>
        How hot, and why
      </a>
    </div>
    <RequirementView requirement={assessment.requirement} />
  </section>
);
