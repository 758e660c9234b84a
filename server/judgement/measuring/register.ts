/**
 * The register of instruments on its way through time: what calibrations, verifications and adjustments made of it,
 * and which gaps there are now. A calibration holds from the instant at which it takes effect, whenever it is entered.
 */
import type { Instant } from '../../measure/quantity.ts';
import { calibratedOf, chainOf } from '../../reading/chain.ts';
import { endOfDay } from '../../weld/day.ts';
import type { Act } from '../../weld/entry.ts';
import type { Instrument } from '../../weld/instrument.ts';
import type { Joint } from '../../weld/joint.ts';
import type { FindingKind } from '../finding-kind.ts';
import { close, open } from '../findings.ts';
import type { State } from '../state.ts';
import type { InstrumentStatus } from './instrument-status.ts';

export interface InstrumentState {
  /** As the joint has it, and as it is after what happened to it. */
  readonly entered: Instrument;
  now: Instrument;
  /** The last verification found it outside its limit. */
  failed?: true;
}

export type GapKind = Extract<FindingKind, 'calibration overdue' | 'calibration not known' | 'verification failed'>;

/** One thing that readings hang on and whose calibration is not shown. */
export interface Gap {
  readonly kind: GapKind;
  readonly instrument?: string;
  /** A probe of which nobody said what it is made of. */
  readonly probe?: string;
  readonly from: Instant;
}

/** As the joint has it now; what happened to an instrument that stays as entered goes on. */
export const registerOf = (joint: Joint, before: readonly InstrumentState[] = []): InstrumentState[] =>
  (joint.instruments ?? []).map(
    (entered) =>
      before.find((each) => JSON.stringify(each.entered) === JSON.stringify(entered)) ?? { entered, now: entered },
  );

export const instrumentsNow = (state: State): Instrument[] => state.register.map(({ now }) => now);

export type InstrumentAct = Extract<Act, { kind: 'calibration' | 'verification' | 'adjustment' }>;

/** The register, and what is known of instruments that it does not hold yet. */
export type Register = Pick<State, 'register' | 'notRegistered'>;

/** After the joint was revised: what was found of an instrument before it was entered holds from its entry on. */
export function revisedRegister(state: Register, joint: Joint): void {
  state.register = registerOf(joint, state.register);
  const waiting = state.notRegistered;
  state.notRegistered = [];
  for (const act of waiting) takeInstrumentAct(state, act);
}

export function takeInstrumentAct(state: Register, act: InstrumentAct): void {
  const found = state.register.find(({ entered }) => entered.id === act.instrument);
  if (found === undefined) {
    state.notRegistered.push(act);
    return;
  }
  if (act.kind === 'verification') {
    if (act.result === 'outside its limit') found.failed = true;
    else delete found.failed;
    return;
  }
  const { certificate: _c, calibratedOn: _o, dueOn: _d, corrections: _p, ...bare } = found.now;
  delete found.failed;
  found.now = bare;
  if (act.kind === 'adjustment') return;
  const { certificate, calibratedOn, dueOn, corrections } = act;
  found.now = {
    ...bare,
    certificate,
    calibratedOn,
    ...(dueOn === undefined ? {} : { dueOn }),
    ...(corrections === undefined ? {} : { corrections }),
  };
}

function calibrationState({ now, failed }: InstrumentState, at: Instant): InstrumentStatus['calibration'] {
  if (failed) return 'failed';
  if (now.certificate === undefined && now.calibratedOn === undefined) return 'not known';
  return now.dueOn !== undefined && at > endOfDay(now.dueOn) ? 'overdue' : 'valid';
}

export const registerStatus = (state: State): InstrumentStatus[] =>
  state.register.map((each) => ({
    instrument: each.now,
    calibration: calibrationState(each, state.closedAt ?? state.now),
  }));

/** Findings for gaps while they last. */
export function settleRegister(state: State): void {
  if (!isCalibrationAsked(state)) return;
  const gaps = calibrationGaps(state);
  const isSame = (a: { kind: string; instrument?: string; probe?: string }, b: Gap): boolean =>
    a.kind === b.kind && a.instrument === b.instrument && a.probe === b.probe;
  for (const finding of state.findings)
    if (gapKinds.has(finding.kind) && finding.to === undefined && !gaps.some((gap) => isSame(finding, gap)))
      close(state, finding.key, state.now);
  for (const gap of gaps) {
    const { kind, from, ...named } = gap;
    const stands = state.findings.some((each) => each.to === undefined && isSame(each, gap));
    if (!stands) open(state, kind, from, named);
  }
}

/** Where the joint has a register, or the procedure asks for calibration whether or not anybody entered one. */
const isCalibrationAsked = ({ joint }: State): boolean =>
  joint.instruments !== undefined || joint.procedure?.calibration === 'required';

/** When a calibration that is in use runs out. */
export const registerDue = (state: State): Instant[] =>
  used(state).flatMap(({ now }) => (now.dueOn === undefined ? [] : [(endOfDay(now.dueOn) + 1) as Instant]));

/** Everything that the probes hang on now and whose calibration is not shown. Spare probes answer for nothing. */
export function calibrationGaps(state: State): Gap[] {
  const gaps = used(state).flatMap((each): Gap[] => {
    const gap = gapOf(each, state.now);
    return gap === undefined ? [] : [gap];
  });
  for (const { probe } of measuring(state)) {
    const { wire, converter } = chainOf(probe, instrumentsNow(state));
    const from = state.openedAt;
    if (wire === undefined) gaps.push({ kind: 'calibration not known', probe: probe.id, from });
    const isNamed = gaps.some(({ instrument }) => instrument === probe.board);
    if (converter === undefined && !isNamed)
      gaps.push({ kind: 'calibration not known', instrument: probe.board, from });
  }
  return gaps.map((gap) => ({ ...gap, from: Math.max(gap.from, state.openedAt) as Instant }));
}

/** Of an instrument that is used at the instant; undefined where its calibration is shown. */
function gapOf(each: InstrumentState, at: Instant): Gap | undefined {
  const instrument = each.entered.id;
  switch (calibrationState(each, at)) {
    case 'valid':
      return undefined;
    case 'overdue':
      return { kind: 'calibration overdue', instrument, from: (endOfDay(each.now.dueOn!) + 1) as Instant };
    case 'not known':
      // As it was entered: from the beginning. After an adjustment: from then on.
      return { kind: 'calibration not known', instrument, from: each.now === each.entered ? (0 as Instant) : at };
    case 'failed':
      return { kind: 'verification failed', instrument, from: at };
  }
}

/** A reading by hand, with what it was read with. */
export function noteHandInstrument(state: State, id: string): void {
  if (!isCalibrationAsked(state)) return;
  const found = state.register.find(({ entered }) => entered.id === id);
  const gap: Pick<Gap, 'kind'> | undefined =
    found === undefined ? { kind: 'calibration not known' } : gapOf(found, state.now);
  if (gap !== undefined) close(state, open(state, gap.kind, state.now, { instrument: id }), state.now);
}

const gapKinds: ReadonlySet<string> = new Set<GapKind>([
  'calibration overdue',
  'calibration not known',
  'verification failed',
]);

const measuring = (state: State) => state.probes.filter(({ probe }) => probe.use !== 'spare');

function used(state: State): InstrumentState[] {
  if (state.register.length === 0) return [];
  const ids = new Set(
    measuring(state).flatMap(({ probe }) => calibratedOf(chainOf(probe, instrumentsNow(state))).map(({ id }) => id)),
  );
  return state.register.filter(({ entered }) => ids.has(entered.id));
}
