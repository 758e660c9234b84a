/**
 * The judge as it is used: feeds the fold in the order of effect, whatever the order of arrival. A late
 * reading or "started n minutes ago" goes back to a kept state and folds on from there, within a bounded
 * window; what lies further back is refused at the desk and only recorded here. What was found of an instrument may
 * reach back to the first reading: then the whole record is folded anew (anew.ts).
 */
import { after, type Instant } from '../measure/quantity.ts';
import { copySuspicion } from '../suspicion/suspicion.ts';
import { arrival, type Input, type StationEvent } from '../weld/entry.ts';
import { inOrderOfEffect, isCorrection, reachesBack } from './anew.ts';
import { assess } from './assess.ts';
import type { Assessment } from './assessment.ts';
import { effectiveAt } from './effect.ts';
import { advance, take } from './fold.ts';
import { outlookOf } from './inside/outlook.ts';
import { courseOf } from './inside/section-course.ts';
import { copySections } from './inside/section-state.ts';
import type { Outlook, SectionCourse } from './inside/section-status.ts';
import { createKeptInputs, type KeptInputs, type PackedInputs } from './kept-inputs.ts';
import type { HandReading } from './measuring/hand-reading.ts';
import { rules } from './rules.ts';
import { begin, type State } from './state.ts';
import { withJudgement } from './struck-passes.ts';

export interface Judge {
  /** Takes an input in; returns false if it lies further back than the judge can go. */
  take(input: Input): boolean;
  /** Lets time pass. Must not be called with an instant later than the next arrival. */
  advance(until: Instant): void;
  assess(): Assessment;
  /** Heat through each part up to the instant. */
  courses(until: Instant): SectionCourse[];
  /** Every reading taken by hand, oldest first. */
  handReadings(): readonly HandReading[];
  /** Some milliseconds a part: every few seconds, not with every reading. */
  outlook(): Outlook;
  /** Whether taking this in means folding the whole record anew: seconds of work for a long job. */
  foldsAnew(input: Input): boolean;
  /** All that it remembers, as plain data, from which a judge goes on in another thread. */
  memory(): JudgeMemory;
}

export interface JudgeMemory {
  readonly state: State;
  readonly newest: Instant;
  readonly kept: readonly { readonly state: State; readonly inputs: PackedInputs }[];
}

interface Kept {
  readonly state: State;
  /** Inputs taken after this state, in the order of effect. */
  readonly inputs: KeptInputs;
  /** Where the last late input was put in. There is one of these at most. */
  readonly isPlace?: true;
}

/**
 * A judge from the first entry of a joint's chain. `earlier` gives all that it has taken so far, in the order of
 * arrival; without it nothing can reach back further than the bounded window.
 */
export function createJudge(
  openedAt: Instant,
  opened: StationEvent & { kind: 'opened' },
  earlier?: () => Iterable<Input>,
  from?: JudgeMemory,
): Judge {
  let state = from?.state ?? begin(openedAt, opened);
  const kept: Kept[] = from?.kept.map((each) => ({ state: each.state, inputs: createKeptInputs(each.inputs) })) ?? [
    { state: copyOf(state), inputs: createKeptInputs() },
  ];
  let newest = from?.newest ?? openedAt;

  const keptAt = (at: Instant): number =>
    state.now - at > rules.lookBack ? -1 : kept.findLastIndex((each) => each.state.now <= at);

  const goBack = (input: Input, at: Instant): boolean => {
    const index = keptAt(at);
    if (index < 0) return reachesBack(input, openedAt) && earlier !== undefined && foldAnew(input, earlier);
    const now = state.now;
    const knownBefore = new Map(state.findings.map((each) => [each.key, each.knownAt]));
    const inputs = kept.slice(index).flatMap((each) => each.inputs.all());
    const position = inputs.findIndex((each) => effectiveAt(each) > at);
    const later = inputs.splice(position < 0 ? inputs.length : position);
    const from = kept[index]!;
    state = copyOf(from.state);
    kept.splice(index, kept.length, { ...from, inputs: createKeptInputs() });
    for (const each of inputs) forward(each);
    forward(input);
    keepPlace();
    for (const each of later) forward(each);
    advance(state, now);
    for (const finding of state.findings) finding.knownAt = knownBefore.get(finding.key) ?? arrival(input);
    return true;
  };

  /** What comes late mostly comes with more of its kind, in order: the next of them goes back no further than to here. */
  const keepPlace = (): void => {
    const index = kept.findIndex((each) => each.isPlace);
    if (index > 0) {
      const [place] = kept.splice(index, 1);
      for (const each of place!.inputs.all()) kept[index - 1]!.inputs.add(each);
    }
    kept.push({ state: copyOf(state), inputs: createKeptInputs(), isPlace: true });
  };

  const foldAnew = (input: Input, before: () => Iterable<Input>): boolean => {
    const now = state.now;
    const knownBefore = new Map(state.findings.map((each) => [each.key, each.knownAt]));
    const judgedBefore = withJudgement(state, input);
    state = { ...begin(openedAt, opened), judgedBefore };
    newest = openedAt;
    kept.splice(0, kept.length, { state: copyOf(state), inputs: createKeptInputs() });
    for (const each of inOrderOfEffect(before, input, openedAt)) forward(each);
    advance(state, now);
    for (const finding of state.findings) finding.knownAt = knownBefore.get(finding.key) ?? arrival(input);
    return true;
  };

  const forward = (input: Input): void => {
    const at = effectiveAt(input);
    if (at - kept.at(-1)!.state.now >= rules.keepStateEvery) {
      // Kept as it stood before the input, at its own instant, so that anything later can be put in.
      kept.push({ state: copyOf(state), inputs: createKeptInputs() });
      while (kept.length > 2 && kept[1]!.state.now < state.now - rules.lookBack) kept.shift();
    }
    kept.at(-1)!.inputs.add(input);
    newest = at;
    take(state, input);
  };

  return {
    take(input) {
      const at = effectiveAt(input);
      // What comes late finds that time has passed, however it was let pass, so that it is known from its arrival.
      if (at < arrival(input)) advance(state, arrival(input));
      if (isCorrection(input) && state.closedAt === undefined && earlier !== undefined) return foldAnew(input, earlier);
      if (at < Math.max(state.now, newest)) return goBack(input, at);
      forward(input);
      return true;
    },
    advance(until) {
      advance(state, until);
    },
    assess: () => assess(state),
    courses: (until) => state.sections.map((each) => courseOf(each.place.part, each.course, until)),
    handReadings: () => [...state.hand],
    outlook: () => outlookOf(state),
    foldsAnew(input) {
      if (!reachesBack(input, openedAt) || earlier === undefined) return false;
      if (isCorrection(input)) return true;
      const at = effectiveAt(input);
      const now = Math.max(state.now, arrival(input)) as Instant;
      return at < Math.max(now, newest) && (now - at > rules.lookBack || keptAt(at) < 0);
    },
    memory: () => ({
      state,
      newest,
      kept: kept.map((each) => ({ state: each.state, inputs: each.inputs.packed() })),
    }),
  };
}

/** Joint, requirement and single readings are replaced as wholes and never changed, so that all copies share them. */
function copyOf(state: State): State {
  const { joint, entered, requirement, limits, probes, sections, hand, suspicion, ...rest } = state;
  const shared = { joint, entered, requirement, limits };
  return {
    ...structuredClone(rest),
    ...shared,
    probes: probes.map((each) => ({ ...each, recent: [...each.recent] })),
    sections: copySections(sections),
    hand: [...hand],
    suspicion: copySuspicion(suspicion),
  };
}

/**
 * Judges a whole record or log at once and returns what the judge says at its end, `until` an instant that is known once all
 * were gone through. The inputs may be gone through again.
 */
export function judgeAll(
  inputs: Iterable<Input>,
  until?: Instant | (() => Instant),
): { judge: Judge; assessment: Assessment } {
  let judge: Judge | undefined;
  let last = 0 as Instant;
  let taken = 0;
  for (const input of inputs) {
    if (judge === undefined) {
      if (input.type !== 'station' || input.event.kind !== 'opened') {
        throw new Error('a record must begin with its opening entry; this one does not, so it cannot be judged');
      }
      judge = createJudge(input.at, input.event, () => firstOf(inputs, taken));
    } else judge.take(input);
    taken += 1;
    last = arrival(input);
  }
  if (judge === undefined) throw new Error('the record is empty: there is nothing to judge');
  judge.advance((typeof until === 'function' ? until() : until) ?? after(last, 0));
  return { judge, assessment: judge.assess() };
}

/** The first so many inputs. */
export function* firstOf(inputs: Iterable<Input>, count: number): Iterable<Input> {
  let given = 0;
  for (const input of inputs) {
    if (given === count) return;
    given += 1;
    yield input;
  }
}
