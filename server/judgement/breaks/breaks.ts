/**
 * Breaks: declared, or no pass for longer than the procedure's time, or the temperature to be kept is lost between two
 * passes. Waiting to cool to the maximum interpass temperature is none, however long it takes. What the procedure asks
 * for before going on stands in readiness (after-break.ts); the soak is asked for anew by voiding what was held.
 */
import { after, elapsed, type Instant, type MilliCelsius, type Milliseconds, minutes } from '../../measure/quantity.ts';
import type { BreakAct } from '../../weld/break.ts';
import { isWeldingComplete } from '../after/after-welding.ts';
import { keepsMinimum } from '../compare.ts';
import { close, note, open } from '../findings.ts';
import { voidHold } from '../hold.ts';
import { interpassNow } from '../interpass.ts';
import { bandAt, gapAllowed, minimumNow } from '../places.ts';
import { rules } from '../rules.ts';
import { hasBegunWelding, isPassRunning, type State } from '../state.ts';
import { endWatch, hasLasted, watchedSince } from '../watches.ts';
import { asksOf, limitToKeep } from './after-break.ts';
import type { Break, Stretch } from './break-state.ts';

const belowKey = 'break/below';
const unknownKey = 'break/not known';

export function takeBreak(state: State, act: BreakAct, who: string, role: string | undefined): void {
  if (act.kind === 'break inspected') {
    takeInspection(state, act, who, role);
    return;
  }
  if (act.state === 'ended') {
    delete state.breaks.declared;
    endBreak(state);
    return;
  }
  const standing = openBreak(state);
  const reason = act.reason ?? '';
  if (standing !== undefined) Object.assign(standing, { who, reason });
  else if (isBetweenPasses(state)) begin(state, { ...newStretch(state.now), by: 'declared', who, reason });
  else state.breaks.declared = { who, reason };
}

export function settleBreaks(state: State): void {
  const { breaks } = state;
  if (!isBetweenPasses(state)) return;
  if (breaks.declared !== undefined) {
    begin(state, { ...newStretch(state.now), by: 'declared', ...breaks.declared });
    delete breaks.declared;
  }
  let standing = openBreak(state);
  if (standing === undefined) {
    breaks.waiting ??= newStretch(state.now);
    if (isCoolingToWindow(state)) breaks.waiting = { ...breaks.waiting, from: state.now };
    const longest = timeAllowed(state);
    if (longest !== undefined && elapsed(breaks.waiting.from, state.now) >= longest)
      standing = begin(state, { ...breaks.waiting, by: 'no pass' });
  }
  follow(state, standing ?? breaks.waiting!);
  if (standing === undefined && breaks.waiting?.fellAt !== undefined && state.limits.maintenanceMinimum !== undefined)
    standing = begin(state, { ...breaks.waiting, by: 'too cold' });
  if (standing !== undefined) {
    tellFall(state, standing);
    voidSoak(state, standing);
  }
}

export function breaksDue(state: State): Instant[] {
  const { waiting } = state.breaks;
  const longest = timeAllowed(state);
  return waiting === undefined || longest === undefined ? [] : [after(waiting.from, longest)];
}

/** The next pass begins, or the last one is done: whatever was asked for was asked for until now. */
export function goOn(state: State): void {
  endBreak(state);
  delete state.breaks.declared;
  state.breaks.answered = state.breaks.list.length;
}

/** What lasts, ends; a wait that comes after it counts anew. */
export function endBreak(state: State): void {
  const standing = openBreak(state);
  if (standing !== undefined) {
    endFall(state, standing);
    standing.to = state.now;
  }
  delete state.breaks.waiting;
  for (const key of [belowKey, unknownKey]) endWatch(state, key);
}

export const openBreak = ({ breaks }: State): Break | undefined => {
  const newest = breaks.list.at(-1);
  return newest?.to === undefined ? newest : undefined;
};

const isBetweenPasses = (state: State): boolean =>
  hasBegunWelding(state) && !isPassRunning(state) && !isWeldingComplete(state);

const newStretch = (from: Instant): Stretch => ({ from, belowFor: 0 as Milliseconds });

function begin(state: State, begun: Break): Break {
  delete state.breaks.waiting;
  state.breaks.list.push(begun);
  return begun;
}

const timeAllowed = ({ joint }: State): Milliseconds | undefined => {
  const longest = joint.procedure?.breaks?.afterMinutes;
  return longest === undefined ? undefined : minutes(longest);
};

/** Asked only where it can matter. What is not read does not cool: then the time counts. */
const isCoolingToWindow = (state: State): boolean =>
  timeAllowed(state) !== undefined &&
  state.limits.interpassMaximum !== undefined &&
  interpassNow(state).state === 'too hot';

/** How cold, how long, and whether it is known. */
function follow(state: State, stretch: Stretch): void {
  const minimum = minimumNow(state);
  const { governing } = minimum;
  const limit = limitToKeep(state);
  if (limit === undefined) {
    stretch.unknown = true;
    return;
  }
  if (governing !== undefined && (stretch.coldest === undefined || isColder(governing, stretch.coldest)))
    stretch.coldest = governing;
  const kept =
    governing === undefined
      ? undefined
      : governing.bound === 'below'
        ? 'broken'
        : keepsMinimum(governing.temperature, limit, bandAt(state, governing));
  if (hasLasted(state, belowKey, kept === 'broken', rules.confirmFor)) {
    stretch.belowSince ??= watchedSince(state, belowKey)!;
    stretch.fellAt ??= stretch.belowSince;
  } else if (kept !== 'broken' && minimum.missing.length === 0) endFall(state, stretch);
  const isUnknown = kept === undefined || kept === 'within the band' || minimum.missing.length > 0;
  if (hasLasted(state, unknownKey, isUnknown, gapAllowed(state, minimum, limit))) stretch.unknown = true;
}

const isColder = (
  { temperature }: { readonly temperature: MilliCelsius },
  than: { readonly temperature: MilliCelsius },
): boolean => temperature < than.temperature;

/** Told where the procedure states a temperature to be kept; holds as long as the fall does, with the lowest it came to. */
function tellFall(state: State, standing: Break): void {
  const limit = state.limits.maintenanceMinimum;
  if (limit === undefined || standing.belowSince === undefined) return;
  const { probe, temperature: value, bound } = standing.coldest!;
  standing.fallKey ??= open(state, 'maintenance temperature lost', standing.belowSince, { probe, value, limit });
  const finding = state.findings.find(({ key }) => key === standing.fallKey);
  if (finding === undefined) return;
  finding.value = value;
  finding.probe = probe;
  if (bound !== undefined) finding.bound = bound;
}

function endFall(state: State, stretch: Stretch): void {
  if (stretch.belowSince === undefined) return;
  stretch.belowFor = (stretch.belowFor + elapsed(stretch.belowSince, state.now)) as Milliseconds;
  delete stretch.belowSince;
  if (stretch.fallKey !== undefined) close(state, stretch.fallKey, state.now);
  delete stretch.fallKey;
}

/** What was held before no longer counts; a hold begins again by itself, a wait with the heat. */
function voidSoak(state: State, standing: Break): void {
  if (standing.soakVoided === true || asksOf(state, standing)?.includes('soak again') !== true) return;
  standing.soakVoided = true;
  for (const hold of [state.soak, state.through]) if (hold.state !== 'not begun') voidHold(hold, 'break');
}

/** Of a break that fell below, one made after the fall: a crack may open as the joint cools. */
function takeInspection(
  state: State,
  { method, result, note: words }: BreakAct & { kind: 'break inspected' },
  who: string,
  role: string | undefined,
): void {
  const found = { who, ...(role === undefined ? {} : { role }), method, result, at: state.now };
  if (result === 'indication') note(state, 'indication after a break', state.now, { who });
  const asked = state.joint.procedure?.breaks?.inspectedBy;
  // Where nobody states a role, as in a station without sign-on, the name stands for it.
  if (asked !== undefined && role !== undefined && role !== asked) return;
  for (const each of state.breaks.list.slice(state.breaks.answered)) {
    each.inspection = { ...found, ...(words === undefined ? {} : { note: words }) };
  }
}
