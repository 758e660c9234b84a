/**
 * What is measured when a pass begins, against the test piece that qualifies the procedure. The same comparisons as at the
 * procedure's own limits, with the limits of the qualified range in their place.
 */
import { type MilliCelsius, milliCelsius } from '../measure/quantity.ts';
import { type QualifiedRange, qualifiedRange, type UpperLimit } from '../metallurgy/qualified-range.ts';
import { note } from './findings.ts';
import { interpassNow } from './interpass.ts';
import type { QualifiedPass } from './pass-status.ts';
import { minimumNow } from './places.ts';
import { hasBegunWelding, type PassState, type State } from './state.ts';

export type FindingOfQualification =
  | 'below qualified preheat'
  | 'interpass above qualified'
  /** Between what is qualified in any case and what is in none: it hangs on a fact that nobody has stated. */
  | 'qualified interpass open'
  | 'qualified range not judged';

/** Tells what is outside; undefined where nothing qualifies the procedure. */
export function qualifiedAtStart(state: State, pass: PassState): QualifiedPass | undefined {
  const qualification = state.joint.procedure?.qualification;
  if (qualification === undefined) return undefined;
  const { preheat, interpass }: QualifiedRange = qualifiedRange(qualification);
  return {
    ...(preheat === undefined ? {} : { preheat: preheatAt(state, pass, milliCelsius(preheat.atLeastCelsius)) }),
    ...(interpass === undefined ? {} : { interpass: interpassAt(state, pass, interpass) }),
  };
}

function preheatAt(
  state: State,
  { pass, minimum }: PassState,
  limit: MilliCelsius,
): NonNullable<QualifiedPass['preheat']> {
  const now = minimumNow(state, limit);
  if (now.below) {
    const { probe, temperature: value, bound } = now.governing!;
    const at = { probe, value, ...(bound === undefined ? {} : { bound }) };
    note(state, 'below qualified preheat', state.now, { pass, ...at, limit });
    return 'outside';
  }
  if (now.state === 'met') return 'inside';
  // Where the minimum could not be judged either, that finding tells of it.
  if (minimum === 'met') note(state, 'qualified range not judged', state.now, { pass, limit });
  return 'not judged';
}

function interpassAt(
  state: State,
  { pass, maximum }: PassState,
  range: UpperLimit,
): NonNullable<QualifiedPass['interpass']> {
  const inside = milliCelsius(range.insideCelsius);
  const now = interpassNow(state, inside);
  if (now.temperature === undefined && now.hidden === undefined && !hasBegunWelding(state)) return 'not needed';
  if (now.state === 'window') return 'inside';
  const measured = now.temperature === undefined ? {} : { probe: now.probe!, value: now.temperature };
  const detail = { pass, ...measured, ...(now.bound === undefined ? {} : { bound: now.bound }) };
  if (now.state === 'too hot') {
    const end = range.outsideCelsius === undefined ? undefined : milliCelsius(range.outsideCelsius);
    const beyond = end === undefined ? undefined : interpassNow(state, end);
    if (beyond?.state === 'too hot') {
      note(state, 'interpass above qualified', state.now, { ...detail, limit: end! });
      return 'outside';
    }
    note(state, 'qualified interpass open', state.now, { ...detail, limit: inside });
    return 'open';
  }
  if (maximum !== 'not judged') note(state, 'qualified range not judged', state.now, { ...detail, limit: inside });
  return 'not judged';
}
