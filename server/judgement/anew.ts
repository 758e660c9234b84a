/**
 * The whole record in the order of effect, for an input that reaches back further than the judge keeps. Most inputs
 * come in that order already, so that only those that came late are held while the record goes by.
 */
import type { Instant } from '../measure/quantity.ts';
import { arrival, type Input } from '../weld/entry.ts';
import { effectiveAt } from './effect.ts';
import { correctedActs } from './pass-corrections.ts';
import { rules } from './rules.ts';

/** A pass put right is judged anew from its beginning, wherever that lies. */
export const isCorrection = (input: Input): boolean => input.type === 'act' && input.act.kind === 'correct pass';

/**
 * What was found of an instrument holds from when it held, however late its certificate comes; what was done at the
 * joint since it was opened is told within a day.
 */
export const reachesBack = (input: Input, openedAt: Instant): boolean => {
  if (input.type !== 'act') return false;
  const { act } = input;
  if (isCorrection(input) || act.kind === 'calibration' || act.kind === 'verification' || act.kind === 'adjustment')
    return true;
  const at = effectiveAt(input);
  return at >= openedAt && input.at - at <= rules.toldWithin;
};

/** All that came before and the newest input, each in its place; without the opening entry, which makes the judge. */
export const inOrderOfEffect = (before: () => Iterable<Input>, newest: Input, openedAt: Instant): Iterable<Input> =>
  allInOrderOfEffect(() => withNewest(before(), newest), openedAt);

/** The same of inputs that are all there. */
export function* allInOrderOfEffect(all: () => Iterable<Input>, openedAt: Instant): Iterable<Input> {
  const corrected = correctedActs(all());
  const inputs = () => marked(all(), corrected);
  const late = [...lateOf(inputs(), openedAt)].sort((a, b) => effectiveAt(a) - effectiveAt(b));
  let next = 0;
  for (const { input, isLate } of inputs()) {
    if (isLate) continue;
    // What came late stands after what has the same instant.
    for (; next < late.length && effectiveAt(late[next]!) < effectiveAt(input); next += 1) yield late[next]!;
    yield input;
  }
  yield* late.slice(next);
}

function* withNewest(before: Iterable<Input>, newest: Input): Iterable<Input> {
  yield* before;
  yield newest;
}

interface Marked {
  readonly input: Input;
  readonly isLate: boolean;
}

/** What could not be judged in its place when it came is not judged now either, unless it was put right since. */
function* lateOf(inputs: Iterable<Marked>, openedAt: Instant): Iterable<Input> {
  for (const { input, isLate } of inputs) {
    const isReachable = arrival(input) - effectiveAt(input) <= rules.lookBack;
    const isRight = input.type === 'act' && input.corrected !== undefined;
    if (isLate && (isReachable || isRight || reachesBack(input, openedAt))) yield input;
  }
}

function* marked(inputs: Iterable<Input>, corrected: ReturnType<typeof correctedActs>): Iterable<Marked> {
  let newest = 0 as Instant;
  let index = -1;
  for (const input of inputs) {
    index += 1;
    if (corrected.has(index)) {
      const right = corrected.get(index);
      if (right !== undefined) yield { input: right, isLate: true };
      continue;
    }
    const at = effectiveAt(input);
    if (index > 0) yield { input, isLate: at < newest };
    newest = Math.max(newest, at) as Instant;
  }
}
