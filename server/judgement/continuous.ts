/**
 * Continuous welding of a turning part: there is no pause in which to read the interpass temperature, so that it is read
 * within the pass, every so many minutes or once a revolution as the procedure says, on the metal that comes up to the
 * arc (ISO 13916: immediately before the arc passes). A probe beside the weld is read when the time is up; a reading by
 * hand counts for the interval in which it was taken, and is judged at once.
 */
import { after, type Instant, type Milliseconds } from '../measure/quantity.ts';
import type { Joint } from '../weld/joint.ts';
import { note } from './findings.ts';
import { interpassNow } from './interpass.ts';
import type { InterpassRound, PassStatus } from './pass-status.ts';
import { rules } from './rules.ts';
import type { PassState, State } from './state.ts';

export function settleContinuous(state: State, pass: PassState): void {
  if (!isAsked(state)) return;
  const every = intervalOf(state.joint, pass.details);
  if (every === undefined) return;
  pass.nextReadingAt ??= after(state.now, every);
  takeHand(state, pass);
  if (state.now < pass.nextReadingAt) return;
  const now = roundNow(state);
  const round = now.state === 'not judged' && pass.handRound !== undefined ? pass.handRound : now;
  keep(pass, round);
  if (round !== pass.handRound) tell(state, pass, round);
  delete pass.handRound;
  pass.nextReadingAt = after(pass.nextReadingAt, every);
}

export const continuousDue = (pass: PassState): Instant | undefined => pass.nextReadingAt;

/** A pass of which nobody entered how long a revolution takes was read at no time that is known. */
export function endContinuous(state: State, pass: PassState): void {
  if (isAsked(state) && intervalOf(state.joint, pass.details) === undefined)
    note(state, 'interpass not judged', state.now, { pass: pass.pass });
}

function intervalOf({ procedure }: Joint, details: PassStatus['details']): Milliseconds | undefined {
  const every = procedure?.interpassEvery;
  if (every === undefined) return undefined;
  if (every !== 'revolution') return Math.round(every.minutes * 60_000) as Milliseconds;
  const { revolutionSeconds } = details;
  return revolutionSeconds === undefined ? undefined : (Math.round(revolutionSeconds * 1000) as Milliseconds);
}

const isAsked = ({ joint, limits }: State): boolean =>
  joint.procedure?.interpassEvery !== undefined && limits.interpassMaximum !== undefined;

/** A reading by hand of this instant, at the weld. */
function takeHand(state: State, pass: PassState): void {
  const newest = state.hand.at(-1);
  if (newest?.use !== 'interpass' || newest.at !== state.now || pass.handRound?.at === state.now) return;
  const round = roundNow(state);
  if (round.state === 'not judged') return;
  if (pass.handRound?.state === 'too hot') return;
  pass.handRound = round;
  tell(state, pass, round);
}

function roundNow(state: State): InterpassRound {
  const { state: stands, probe, temperature, bound } = interpassNow(state);
  return {
    at: state.now,
    state: stands,
    ...(probe === undefined ? {} : { probe }),
    ...(temperature === undefined ? {} : { temperature }),
    ...(bound === undefined ? {} : { bound }),
  };
}

function tell(state: State, { pass }: PassState, { state: stands, probe, temperature, bound }: InterpassRound): void {
  const detail = {
    pass,
    ...(probe === undefined ? {} : { probe }),
    ...(temperature === undefined ? {} : { value: temperature }),
    limit: state.limits.interpassMaximum!,
    ...(bound === undefined ? {} : { bound }),
  };
  if (stands === 'too hot') note(state, 'interpass above maximum during pass', state.now, detail);
  if (stands === 'not judged') note(state, 'interpass not judged during pass', state.now, { pass });
}

/** As many as there are, up to a bound; findings are told beyond it all the same. */
function keep(pass: PassState, round: InterpassRound): void {
  if ((pass.rounds?.length ?? 0) < rules.roundsKept) pass.rounds = [...(pass.rounds ?? []), round];
}
