/** Every condition of readiness with its number: met, not met, or not judged, told by word, shape and place. */
import type { Assessment } from '../../../server/judgement/assessment.ts';
import type { Condition } from '../../../server/judgement/condition.ts';
import { conditionText } from '../../../server/wording/condition.ts';
import { begun } from '../../../server/wording/list.ts';
import { conditionName } from '../../../server/wording/words.ts';
import { bound } from '../../format/bound.ts';
import { Glyph, type GlyphName } from '../../parts/glyph.tsx';

export interface ConditionLine {
  readonly id: string;
  readonly name: string;
  readonly state: Condition['state'];
  readonly text: string;
  readonly holdsUp: boolean;
}

/** What holds the joint up first, then what is met; last what nobody asks for, since no limit is stated. */
export const conditionLines = (assessment: Assessment): ConditionLine[] =>
  assessment.conditions
    .toSorted((a, b) => rank(a) - rank(b))
    .map((condition) => ({
      id: condition.id,
      name: conditionName(condition.id),
      state: condition.state,
      holdsUp: rank(condition) < 2 && (assessment.phase !== 'pass running' || holdsDuringPass(condition)),
      text: begun(conditionText(condition, assessment)),
    }))
    // Two conditions may hang on the same lack; one line says it.
    .filter((line, index, all) => all.findIndex((other) => other.text === line.text) === index);

/** Soak and interpass were asked at the start of the pass; they are asked again for the next. */
const holdsDuringPass = ({ id }: Condition): boolean => id === 'minimum reached' || id === 'highest temperature';

const rank = ({ state, reason }: Condition): number => {
  if (reason === 'no limit stated') return 3;
  return state === 'met' ? 2 : state === 'not met' ? 0 : 1;
};

const glyphs: Readonly<Record<Condition['state'], GlyphName>> = {
  met: 'met',
  'not met': 'unmet',
  'not judged': 'unjudged',
};

/** What holds the joint up has a line of its own; the rest follows together. */
export function Conditions({ assessment }: { readonly assessment: Assessment }) {
  const lines = conditionLines(assessment);
  const group = (state: ConditionLine['state']): ConditionLine[] =>
    lines.filter((line) => !line.holdsUp && line.state === state);
  return (
    <dl class="conditions" aria-label="Conditions">
      {lines
        .filter((line) => line.holdsUp)
        .map((line) => (
          <div key={line.id} class="holds-up">
            <dt>
              <Glyph name={glyphs[line.state]} size={26} />
              {begun(line.state)}
            </dt>
            <dd>{bound(line.text)}</dd>
          </div>
        ))}
      {(['not met', 'met', 'not judged'] as const).map((state) => {
        const rest = group(state);
        return rest.length === 0 ? null : (
          <div key={state}>
            <dt>
              <Glyph name={glyphs[state]} size={22} />
              {begun(state)}
            </dt>
            <dd>{bound(rest.map((line) => line.text).join(' \u00B7 '))}</dd>
          </div>
        );
      })}
    </dl>
  );
}
