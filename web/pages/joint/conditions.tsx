/** Every condition of readiness with its number: met, not met, or not judged, told by word, shape and place. */
import type { Assessment, Condition } from '../../../server/judgement/assessment.ts';
import { conditionText } from '../../../server/wording/condition.ts';
import { begun } from '../../../server/wording/list.ts';
import { conditionName } from '../../../server/wording/words.ts';
import { Glyph, type GlyphName } from '../../parts/glyph.tsx';

export interface ConditionLine {
  readonly id: string;
  readonly name: string;
  readonly state: Condition['state'];
  readonly text: string;
}

const order: Readonly<Record<Condition['state'], number>> = { 'not met': 0, 'not judged': 1, met: 2 };

/** What is not met first. Until something is wrong the order stays, so that nothing jumps. */
export const conditionLines = (assessment: Assessment): ConditionLine[] =>
  assessment.conditions
    .toSorted((a, b) => order[a.state] - order[b.state])
    .map((condition) => ({
      id: condition.id,
      name: conditionName(condition.id),
      state: condition.state,
      text: begun(conditionText(condition, assessment)),
    }));

const glyphs: Readonly<Record<Condition['state'], GlyphName>> = {
  met: 'met',
  'not met': 'unmet',
  'not judged': 'unjudged',
};

export function Conditions({ assessment }: { readonly assessment: Assessment }) {
  return (
    <ul class="conditions" aria-label="Conditions">
      {conditionLines(assessment).map((line) => (
        <li key={line.id} class={line.state.replace(' ', '-')}>
          <Glyph name={glyphs[line.state]} size={22} />
          <span class="state">{begun(line.state)}</span>
          <span>{line.text}</span>
        </li>
      ))}
    </ul>
  );
}
