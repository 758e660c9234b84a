/** Breaks: how long, how cold, and what came of each. */
import type { Assessment } from '../../../server/judgement/assessment.ts';
import { breakLines } from '../../../server/wording/break.ts';
import { dayClockText } from '../../format/time.ts';
import { useShorter } from '../../parts/shorter.tsx';

export function Breaks({ assessment }: { readonly assessment: Assessment }) {
  const { breaks = [], at, requirement } = assessment;
  const [lines, more] = useShorter(
    breakLines(breaks, at, requirement.units, (when) => dayClockText(when)),
    'breaks',
  );
  if (breaks.length === 0) return null;
  return (
    <section class="sheet" aria-labelledby="breaks-heading">
      <div class="sheet-head">
        <h2 id="breaks-heading">Breaks</h2>
      </div>
      <dl class="facts">
        {lines.map(({ name, text }, index) => (
          <div key={`${name} ${index}`}>
            <dt>{name}</dt>
            <dd>{text}</dd>
          </div>
        ))}
      </dl>
      {more}
    </section>
  );
}
