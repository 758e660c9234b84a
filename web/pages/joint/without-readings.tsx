/** A closed joint whose readings are in a package: what was recorded stands, nothing is drawn or judged, and the way back. */
import type { Instant } from '../../../server/measure/quantity.ts';
import { holdingPackageText, putBackHint, removedText } from '../../../server/wording/removal.ts';
import { verdictHeadline } from '../../../server/wording/words.ts';
import type { LiveJoint } from '../../feed/live-joint.ts';
import { ReadingsForm } from '../../parts/readings-form.tsx';
import { Findings } from './findings.tsx';
import { RecordHead } from './record-head.tsx';
import { Repairs } from './repairs.tsx';
import { RequiredPreheat } from './required-preheat.tsx';

interface Props {
  readonly live: LiveJoint & { readonly readingsRemoved: NonNullable<LiveJoint['readingsRemoved']> };
  readonly now: Instant;
  readonly changed: () => void;
}

export function WithoutReadings({ live, now, changed }: Props) {
  const { assessment, readingsRemoved: removed, joint } = live;
  const zone = Intl.DateTimeFormat().resolvedOptions().timeZone;
  return (
    <>
      <section class="sheet what-was-found readings-away" aria-labelledby="away-heading">
        <h2 id="away-heading">The readings are in a package</h2>
        <p class="notice">
          {removed.scans} scans were {removedText(removed, zone)}.
        </p>
        <p>
          They are not missing: {holdingPackageText(removed)}, with report, charts and tables made of them. Nothing is
          drawn or judged here without them.
        </p>
        <h3>Verdict, as recorded</h3>
        <p>
          <strong>{verdictHeadline(assessment.verdict)}</strong>. Recorded when the joint was closed, and not judged
          again since the readings went.
        </p>
      </section>
      <section class="sheet" aria-labelledby="back-heading">
        <h2 id="back-heading">Put the readings back</h2>
        <p class="hint">{putBackHint}</p>
        <ReadingsForm path={`/api/joints/${encodeURIComponent(joint.id)}`} way="put back" done={changed} />
      </section>
      <div class="second">
        <Findings assessment={assessment} now={now} />
        <RecordHead live={live} changed={changed} />
      </div>
      <Repairs live={live} />
      <RequiredPreheat live={live} />
    </>
  );
}
