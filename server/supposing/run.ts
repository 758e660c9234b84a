/** The judge's own fold over inputs in the order of effect, and what is noted of it on the way: when all was ready, and when warm through. */
import { allInOrderOfEffect } from '../judgement/anew.ts';
import { assess } from '../judgement/assess.ts';
import type { Assessment } from '../judgement/assessment.ts';
import { effectiveAt } from '../judgement/effect.ts';
import { advance, take } from '../judgement/fold.ts';
import { isReadyNow } from '../judgement/readiness.ts';
import { begin, hasBegunWelding, isPassRunning, type State } from '../judgement/state.ts';
import type { Instant } from '../measure/quantity.ts';
import { arrival, type Input, type StationEvent } from '../weld/entry.ts';
import type { Judged, Stood } from './answer.ts';

/** A record in the order of effect, its corrections made, with the opening entry apart. */
export interface Ordered {
  readonly openedAt: Instant;
  readonly opened: StationEvent & { readonly kind: 'opened' };
  /** May be gone through again. Not held all at once: a day of readings is large. */
  readonly inputs: Iterable<Input>;
  /** When the last of them came, or the moment that was asked for. */
  readonly until: Instant;
  /** More came since. */
  readonly past: boolean;
}

/**
 * As it stood `at` a moment: what had come by then. Undefined where that moment is not one of this record. Throws with words for
 * a record that does not begin with its opening entry.
 */
export function ordered(inputs: Iterable<Input>, at?: Instant): Ordered | undefined {
  const [first] = inputs;
  if (first?.type !== 'station' || first.event.kind !== 'opened')
    throw new Error('the record does not begin with the opening of a joint; nothing can be supposed of it');
  let until = first.at;
  for (const input of inputs) until = Math.max(until, arrival(input)) as Instant;
  if (at !== undefined && (at < first.at || at > until)) return undefined;
  const came = at === undefined ? inputs : again(() => cameBy(inputs, at));
  return {
    openedAt: first.at,
    opened: first.event,
    inputs: again(() => allInOrderOfEffect(() => came, first.at)),
    until: at ?? until,
    past: at !== undefined && at < until,
  };
}

function* cameBy(inputs: Iterable<Input>, at: Instant): Iterable<Input> {
  for (const input of inputs) if (arrival(input) <= at) yield input;
}

export const stoodOf = ({ until, past }: Ordered, { state }: Run): Stood => ({
  at: until,
  open: state.closedAt === undefined,
  past,
});

export const again = <T>(begin: () => Iterable<T>): Iterable<T> => ({
  [Symbol.iterator]: () => begin()[Symbol.iterator](),
});

export interface Run {
  readonly state: State;
  readonly assessment: Assessment;
  readonly judged: Judged;
}

export function run({ openedAt, opened, inputs, until }: Ordered): Run {
  const state = begin(openedAt, opened);
  const readyBefore = new Map<string, Instant>();
  let firstReadyAt: Instant | undefined;
  let readyAt: Instant | undefined;
  const look = (): void => {
    if (readyAt === undefined && state.closedAt === undefined && !isPassRunning(state) && isReadyNow(state))
      readyAt = state.now;
    if (!hasBegunWelding(state)) firstReadyAt = readyAt;
  };
  for (const input of inputs) {
    const passes = state.passes.length;
    advance(state, effectiveAt(input));
    // Time alone can have made it ready; and a pass is not made ready by its own start.
    look();
    take(state, input);
    if (state.passes.length > passes && readyAt !== undefined) readyBefore.set(state.passes.at(-1)!.pass, readyAt);
    if (isPassRunning(state)) readyAt = undefined;
    else look();
  }
  advance(state, until);
  const assessment = assess(state);
  const coreAt = assessment.throughThickness.firstDoneAt;
  return {
    state,
    assessment,
    judged: {
      verdict: assessment.verdict,
      ...(firstReadyAt === undefined ? {} : { firstReadyAt }),
      ...(coreAt === undefined ? {} : { coreAt }),
      passes: assessment.passes.map(({ pass, startedAt, minimum, maximum }) => {
        const at = readyBefore.get(pass);
        return { pass, startedAt, minimum, maximum, ...(at === undefined ? {} : { readyAt: at }) };
      }),
    },
  };
}
