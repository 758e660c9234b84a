/** The record of this joint: how many entries, its head, and the ways to take it along. */
import type { LiveJoint } from '../../feed/live-joint.ts';
import { HeadCode } from '../../parts/head-code.tsx';
import { PaperLinks } from '../../parts/paper-links.tsx';
import { RemoveReadings } from '../../parts/readings-form.tsx';
import { StampForm } from '../../parts/stamp-form.tsx';
import { correctAddress, recordAddress } from '../../state/route.ts';

export function RecordHead({ live, changed }: { readonly live: LiveJoint; readonly changed: () => void }) {
  const path = `/api/joints/${encodeURIComponent(live.joint.id)}`;
  // Paper and tables carry local times too: those of whoever asks for them.
  const zone = encodeURIComponent(Intl.DateTimeFormat().resolvedOptions().timeZone);
  const isHere = live.readingsRemoved === undefined;
  return (
    <section class="sheet" aria-labelledby="record-heading">
      <div class="sheet-head">
        <h2 id="record-heading">Record</h2>
      </div>
      <dl class="facts">
        <dt>Entries</dt>
        <dd>{live.entries}</dd>
        <dt>Head</dt>
        <dd>
          <code>{live.headHash.slice(0, 16)}</code>
          <span class="place">first 16 of {live.headHash.length} characters; the printed report carries all</span>
        </dd>
      </dl>
      <HeadCode joint={live.joint.id} />
      <div class="row wrap">
        <a class="button" href={recordAddress(live.joint.id)}>
          All entries
        </a>
        <a class="button" href={`${path}/report.pdf?zone=${zone}`} target="_blank" rel="noreferrer">
          Report (PDF)
        </a>
        <PaperLinks path={path} />
        {isHere && (
          <a class="button" href={`${path}/readings.csv?zone=${zone}`} download>
            Readings (CSV)
          </a>
        )}
        {isHere && live.assessment.passes.length > 0 && (
          <a class="button" href={`${path}/passes.csv?zone=${zone}`} download>
            Passes (CSV)
          </a>
        )}
        <a class="button" href={`${path}/package.zip?zone=${zone}`} download>
          Package to verify (ZIP)
        </a>
        {live.assessment.phase !== 'closed' && (
          <a class="button" href={correctAddress(live.joint.id)}>
            Correct the joint
          </a>
        )}
      </div>
      <StampForm path={path} />
      {isHere && live.assessment.phase === 'closed' && <RemoveReadings path={path} zone={zone} done={changed} />}
    </section>
  );
}
