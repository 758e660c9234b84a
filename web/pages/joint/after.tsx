/** How post-heating, cooling and the wait stand once the last arc is out. */
import type { Assessment } from '../../../server/judgement/assessment.ts';
import { afterLines } from '../../../server/wording/after.ts';
import { dayClockText } from '../../format/time.ts';

export function AfterWelding({ assessment }: { readonly assessment: Assessment }) {
  const { after, requirement } = assessment;
  if (after === undefined) return null;
  return (
    <section class="sheet" aria-labelledby="after-heading">
      <div class="sheet-head">
        <h2 id="after-heading">After welding</h2>
      </div>
      <dl class="facts">
        {afterLines(after, requirement.units, (at) => dayClockText(at)).map(({ name, text }) => (
          <div key={name}>
            <dt>{name}</dt>
            <dd>{text}</dd>
          </div>
        ))}
      </dl>
    </section>
  );
}
