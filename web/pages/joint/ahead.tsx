/** Where the joint stands: what is asked for now, what comes next, and when, where that can be told. */
import type { Assessment } from '../../../server/judgement/assessment.ts';
import { aheadText } from '../../../server/wording/ahead.ts';
import { begun } from '../../../server/wording/list.ts';
import { phaseText } from '../../../server/wording/words.ts';
import { bound } from '../../format/bound.ts';

export function AheadBlock({ assessment, old }: { readonly assessment: Assessment; readonly old: boolean }) {
  if (old)
    return (
      <dl class="ahead was" aria-label="Phase">
        <div>
          <dt>Now</dt>
          <dd>What is asked for cannot be told while the joint is not seen.</dd>
        </div>
      </dl>
    );
  const { now, next, when } = aheadText(assessment);
  return (
    <dl class="ahead" aria-label="Phase">
      <div>
        <dt>{phaseText(assessment.phase)}, now</dt>
        <dd>
          {now.length === 0 ? (
            'nothing more is asked for'
          ) : (
            <ul>
              {now.map((each) => (
                <li key={each}>{bound(begun(each))}</li>
              ))}
            </ul>
          )}
        </dd>
      </div>
      {next !== undefined && (
        <div>
          <dt>Next</dt>
          <dd>{begun(next)}</dd>
        </div>
      )}
      <div>
        <dt>When</dt>
        <dd>{when === undefined ? 'Cannot be told' : bound(begun(when))}</dd>
      </div>
    </dl>
  );
}
