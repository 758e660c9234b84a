/** Passes: judged once at the start, watched against the minimum while they run. Starting is never blocked. */
import type { Instant } from '../measure/quantity.ts';
import type { Act } from '../weld/entry.ts';
import { detailsOf, type PassCorrection, type PassDetails } from '../weld/pass-acts.ts';
import { arcAgain } from './after/after-welding.ts';
import { ambientMissed } from './ambient/check.ts';
import { arcInPass } from './arc-watch.ts';
import { noteAfterBreak } from './breaks/after-break.ts';
import { endBreak, goOn } from './breaks/breaks.ts';
import { notePassChecks } from './checks/checks.ts';
import type { Condition } from './condition.ts';
import { continuousDue, endContinuous, settleContinuous } from './continuous.ts';
import type { FindingKind } from './finding-kind.ts';
import { note } from './findings.ts';
import { type InterpassNow, interpassNow } from './interpass.ts';
import { noteNearLimit } from './measuring/near-limit.ts';
import { addDetails, heatOf, isDeposited } from './pass-heat.ts';
import { noteQualification } from './people/welder-qualified.ts';
import { coldestOf, gapAllowed, hottestOf, minimumNow, minimumProbes, onPart } from './places.ts';
import { qualifiedAtStart } from './qualified.ts';
import { conditions } from './readiness.ts';
import { rules } from './rules.ts';
import { type Extreme, hasBegunWelding, type PassState, type State } from './state.ts';
import { strike } from './struck-passes.ts';
import { endWatch, tellLasting } from './watches.ts';

export function startPass(
  state: State,
  act: Act & { kind: 'pass start' },
  enteredAt: Instant,
  corrections?: readonly PassCorrection[],
): void {
  if (corrections?.at(-1)?.struck === true) {
    strike(state, corrections, enteredAt);
    return;
  }
  if (state.passes.some((each) => each.pass === act.pass)) return;
  ambientMissed(state);
  arcAgain(state);
  arcInPass(state);
  const list = conditions(state).filter(({ id }) => id !== 'after break' || isDeposited(act.passKind));
  const minimum = minimumNow(state);
  const interpass = interpassNow(state);
  const pass: PassState = {
    pass: act.pass,
    passKind: act.passKind,
    welder: act.welder,
    details: detailsOf(act),
    heat: heatOf(state.joint, { passKind: act.passKind, details: detailsOf(act) }),
    startedAt: state.now,
    enteredAt,
    ...(corrections === undefined ? {} : { corrections }),
    ...(minimum.governing === undefined ? {} : { coldestAtStart: minimum.governing }),
    ...(interpass.by === undefined
      ? {}
      : {
          interpass: {
            probe: interpass.probe!,
            temperature: interpass.temperature!,
            by: interpass.by,
            ...(interpass.bound === undefined ? {} : { bound: interpass.bound }),
          },
        }),
    minimum: minimum.below ? 'not met' : minimum.state,
    maximum: maximumAtStart(state, interpass),
    outside: list.filter((each) => each.state !== 'met' && each.reason !== 'no limit stated').map((each) => each.id),
  };
  const qualified = qualifiedAtStart(state, pass);
  if (qualified !== undefined) pass.qualified = qualified;
  for (const condition of list) {
    noteOutside(state, condition, act.pass);
    noteNearLimit(state, condition, act.pass);
  }
  notePassChecks(state, act.pass);
  if (isDeposited(act.passKind)) noteQualification(state, act);
  if (isDeposited(act.passKind)) goOn(state);
  else endBreak(state);
  state.passes.push(pass);
}

export function endPass(state: State, id: string, details: PassDetails = {}): void {
  const pass = state.passes.find((each) => each.pass === id && each.endedAt === undefined);
  if (pass === undefined) return;
  pass.endedAt = state.now;
  addDetails(state, id, details);
  endContinuous(state, pass);
  for (const kind of ['below minimum during pass', 'within guard band', 'minimum not judged'] as const)
    endWatch(state, watchKey(pass, kind));
}

/** Keeps the extremes of every running pass and tells when the minimum is lost, or cannot be judged, for longer than a spike. */
export function settlePasses(state: State): void {
  for (const pass of state.passes) {
    if (pass.endedAt !== undefined) continue;
    keepExtremes(state, pass);
    settleContinuous(state, pass);
    const minimum = minimumNow(state);
    if (lasts(state, pass, 'below minimum during pass', minimum.below, minimum.governing)) pass.minimum = 'not met';
    const isNear = minimum.reason === 'within guard band';
    const near = lasts(state, pass, 'within guard band', isNear, minimum.governing);
    const isUnknown = minimum.state === 'not judged' && !isNear;
    const unknown = lasts(state, pass, 'minimum not judged', isUnknown, undefined, gapAllowed(state, minimum));
    if ((unknown || near) && pass.minimum === 'met') pass.minimum = 'not judged';
  }
}

export function passesDue(state: State): Instant[] {
  return state.passes
    .filter((each) => each.endedAt === undefined)
    .map(continuousDue)
    .filter((each) => each !== undefined);
}

function maximumAtStart(state: State, { state: stands, temperature, hidden }: InterpassNow): PassState['maximum'] {
  if (state.limits.interpassMaximum === undefined) return 'not needed';
  if (hidden !== undefined) return 'not judged';
  if (temperature === undefined) return hasBegunWelding(state) ? 'not judged' : 'not needed';
  return stands === 'window' ? 'met' : stands === 'too hot' ? 'not met' : 'not judged';
}

/** What each unmet condition means for a pass that begins all the same. */
function noteOutside(state: State, condition: Condition, pass: string): void {
  if (condition.state === 'met' || condition.reason === 'no limit stated') return;
  const notJudged = condition.state === 'not judged';
  const detail = {
    pass,
    ...(condition.probe === undefined ? {} : { probe: condition.probe }),
    ...(condition.value === undefined ? {} : { value: condition.value }),
    ...(condition.limit === undefined ? {} : { limit: condition.limit }),
    ...(condition.bound === undefined ? {} : { bound: condition.bound }),
  };
  if (condition.reason === 'stopped within guard band') {
    const kind = condition.id === 'soak' ? 'soak not judged' : 'through thickness not judged';
    note(state, kind, state.now, { pass, ...(condition.part === undefined ? {} : { part: condition.part }) });
    return;
  }
  if (condition.reason === 'within guard band' && condition.id !== 'highest temperature') {
    note(state, 'within guard band', state.now, {
      ...detail,
      ...(condition.part === undefined ? {} : { part: condition.part }),
    });
    return;
  }
  switch (condition.id) {
    case 'instruments calibrated':
      note(state, 'calibration not shown', state.now, { pass, instrument: condition.missing![0]! });
      return;
    case 'ambient check':
      note(state, 'ambient check not shown', state.now, { pass, ...missingOf(condition) });
      return;
    case 'after break':
      noteAfterBreak(state, condition, pass);
      return;
    case 'checks':
    case 'hold points':
      // Told one by one, with the points that only this pass goes past (checks.ts).
      return;
    case 'minimum stated':
      note(state, 'no minimum to judge', state.now, { pass });
      return;
    case 'answers given': {
      for (const warning of state.requirement.warnings.filter((each) => each.wantsAnswer)) {
        note(
          state,
          warning.kind === 'procedure below calculation'
            ? 'procedure below calculation'
            : 'extended range not accepted',
          state.now,
          { pass },
        );
      }
      return;
    }
    case 'zone probes placed':
      note(state, 'too few zone probes', state.now, { pass });
      return;
    case 'minimum reached':
      // Without a stated minimum there is one finding, the one that says so.
      if (condition.reason === 'no minimum stated') return;
      if (notJudged) note(state, 'minimum not judged', state.now, { pass, ...missingOf(condition) });
      // Both can be so: one place is cold, another is not read.
      if (minimumNow(state).below) note(state, 'below minimum at pass start', state.now, detail);
      return;
    case 'soak':
      note(state, notJudged ? 'soak not judged' : 'soak not met', state.now, detail);
      return;
    case 'through thickness': {
      const part = condition.part === undefined ? {} : { part: condition.part };
      const kept = { pass, ...part, ...(notJudged ? missingOf(condition) : detail) };
      const held = condition.reason === 'below minimum' ? 'through thickness not met' : 'through thickness not held';
      note(state, notJudged ? 'through thickness not judged' : held, state.now, kept);
      return;
    }
    case 'evenness':
      // Without two readings on any face the missing readings have their own finding.
      if (condition.reason === 'only an untrusted probe is above it')
        note(state, 'evenness not judged', state.now, detail);
      else if (!notJudged) note(state, 'uneven', state.now, detail);
      return;
    case 'highest temperature':
      // Watched all the time (limits-watch.ts), not only at a start.
      return;
    case 'interpass maximum':
      note(state, notJudged ? 'interpass not judged' : 'interpass above maximum', state.now, detail);
      return;
  }
}

/** The place that could not be read, not the one that could. */
const missingOf = (condition: Condition): { probe?: string } => {
  const probe = condition.missing?.[0];
  return probe === undefined ? {} : { probe };
};

function keepExtremes(state: State, pass: PassState): void {
  const coldest = coldestOf(state, minimumProbes(state));
  if (
    coldest !== undefined &&
    (pass.coldestDuring === undefined || coldest.temperature < pass.coldestDuring.temperature)
  ) {
    pass.coldestDuring = coldest;
  }
  const hottest = hottestOf(state, onPart(state));
  if (
    hottest !== undefined &&
    (pass.hottestDuring === undefined || hottest.temperature > pass.hottestDuring.temperature)
  ) {
    pass.hottestDuring = hottest;
  }
}

const watchKey = (pass: PassState, kind: FindingKind): string => `pass ${pass.pass}/${kind}`;

function lasts(
  state: State,
  pass: PassState,
  kind: 'below minimum during pass' | 'within guard band' | 'minimum not judged',
  holds: boolean,
  now: Extreme | undefined,
  delay: number = rules.confirmFor,
): boolean {
  const limit = state.limits.preheatMinimum;
  const detail = { pass: pass.pass, ...(limit === undefined ? {} : { limit }) };
  return tellLasting(state, watchKey(pass, kind), holds, delay, { kind, detail, now });
}
