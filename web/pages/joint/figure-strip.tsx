/** The large figures, readable at two metres. */
import type { Assessment } from '../../../server/judgement/assessment.ts';
import type { Instant } from '../../../server/measure/quantity.ts';
import { bound } from '../../format/bound.ts';
import { figuresOf } from './figures.ts';

export function FigureStrip({
  assessment,
  now,
  old,
}: {
  readonly assessment: Assessment;
  readonly now: Instant | undefined;
  readonly old: boolean;
}) {
  return (
    <dl class={old ? 'figures was' : 'figures'} aria-label={old ? 'Last known figures' : 'Figures'}>
      {figuresOf(assessment, now).map((figure) => (
        <div key={figure.name} class={figure.abnormal ? 'figure abnormal' : 'figure'}>
          <dt>{figure.name}</dt>
          <dd>
            <span class={/\d/.test(figure.value) || figure.value.length < 4 ? 'figure-value' : 'figure-value words'}>
              {figure.value}
            </span>
            {figure.beside.map((line) => (
              <span class="figure-beside" key={line}>
                {bound(line)}
              </span>
            ))}
          </dd>
        </div>
      ))}
    </dl>
  );
}
