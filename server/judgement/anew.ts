/**
 * The whole record in the order of effect, for an input that reaches back further than the judge keeps. Most inputs
 * come in that order already, so that only those that came late are held while the record goes by.
 */
import type { Instant } from '../measure/quantity.ts';
import { arrival, type Input } from '../weld/entry.ts';
import { effectiveAt } from './fold.ts';
import { rules } from './rules.ts';

/** What was found of an instrument holds from when it held, however late its certificate comes. */
export const reachesBack = (input: Input): boolean =>
  input.type === 'act' &&
  (input.act.kind === 'calibration' || input.act.kind === 'verification' || input.act.kind === 'adjustment');

/** All that came before, with the newest input in its place; without the opening entry, which makes the judge. */
export function* inOrderOfEffect(before: () => Iterable<Input>, newest: Input): Iterable<Input> {
  const late = [...lateOf(before()), newest].sort((a, b) => effectiveAt(a) - effectiveAt(b));
  let next = 0;
  for (const { input, isLate } of marked(before())) {
    if (isLate) continue;
    // What came late stands after what has the same instant.
    for (; next < late.length && effectiveAt(late[next]!) < effectiveAt(input); next += 1) yield late[next]!;
    yield input;
  }
  yield* late.slice(next);
}

/** What could not be judged in its place when it came is not judged now either. */
function* lateOf(inputs: Iterable<Input>): Iterable<Input> {
  for (const { input, isLate } of marked(inputs)) {
    const isReachable = arrival(input) - effectiveAt(input) <= rules.lookBack;
    if (isLate && (isReachable || reachesBack(input))) yield input;
  }
}

function* marked(inputs: Iterable<Input>): Iterable<{ input: Input; isLate: boolean }> {
  let newest = 0 as Instant;
  let isFirst = true;
  for (const input of inputs) {
    const at = effectiveAt(input);
    if (!isFirst) yield { input, isLate: at < newest };
    isFirst = false;
    newest = Math.max(newest, at) as Instant;
  }
}
