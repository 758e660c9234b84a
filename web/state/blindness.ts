/**
 * What this page does not see just now, each kind with words of its own and what to do: no calm page may stand on top
 * of it. Bounds of time are in web/feed/bounds.ts. What the page cannot say itself, since it does not run, is
 * web/parts/still.tsx.
 */
import type { Instant, Milliseconds } from '../../server/measure/quantity.ts';
import type { StationView } from '../../server/screen/contract.ts';
import { begun, listText } from '../../server/wording/list.ts';
import { durationText } from '../../server/wording/time.ts';
import { blindBounds } from '../feed/bounds.ts';
import type { Contact } from '../feed/contact.ts';
import type { LiveJoint } from '../feed/live-joint.ts';
import type { Away } from '../feed/presence.ts';
import { clockText } from '../format/time.ts';

export interface Blind {
  readonly kind:
    | 'line broken'
    | 'no word'
    | 'not recording'
    | 'clocks apart'
    | 'clock stepped'
    | 'was away'
    | 'no data'
    | 'old data';
  /** stop: do not rely on what stands here. warn: know it. */
  readonly level: 'stop' | 'warn';
  readonly head: string;
  readonly rest: string;
}

export interface StationFacts {
  readonly contact: Contact;
  /** The line stands. */
  readonly connected: boolean;
  readonly view: StationView | undefined;
  /** This device's clock less the station's, when the station was last heard. */
  readonly clockLead: number | undefined;
  readonly away: Away | undefined;
  /** This device's monotonic clock now, and when the station was last heard. */
  readonly monotonic: number;
  readonly heardAt: number | undefined;
}

/** On every page. */
export const stationBlindness = (facts: StationFacts): Blind[] =>
  [lineOrWord(facts), notRecording(facts), away(facts), clockStepped(facts), clocksApart(facts)].filter(
    (each) => each !== undefined,
  );

export const blindSentence = (forMilliseconds: number): string =>
  `No word from the station for ${lasting(forMilliseconds)} \u2013 do not rely on this screen`;

const lasting = (milliseconds: number): string => durationText(milliseconds as Milliseconds);

function lineOrWord({ contact, connected, heardAt, monotonic }: StationFacts): Blind | undefined {
  if (!connected && heardAt !== undefined)
    return {
      kind: 'line broken',
      level: 'stop',
      head: `The line to the station is broken: nothing has come for ${lasting(Math.max(1000, monotonic - heardAt))}.`,
      rest: 'Check the network of this device and that the station runs. The page tries again by itself.',
    };
  if (contact.kind === 'live') return undefined;
  if (contact.kind === 'never heard' && contact.forMilliseconds <= blindBounds.noWord) return undefined;
  return {
    kind: 'no word',
    level: 'stop',
    head: `${blindSentence(contact.forMilliseconds)}.`,
    rest: connected ? 'The line stands, but nothing comes: see whether the station hangs or is overloaded.' : '',
  };
}

function notRecording({ view }: StationFacts): Blind | undefined {
  if (view?.recording !== false) return undefined;
  const because = view.notRecordingBecause ?? '';
  const cause = because === '' ? 'The station cannot write.' : `${begun(because)}${/[.!?]$/.test(because) ? '' : '.'}`;
  return {
    kind: 'not recording',
    level: 'stop',
    head: 'NOT RECORDING.',
    rest: `${cause} Nothing that happens now is kept: write it down by hand.`,
  };
}

function away({ away: was, contact, heardAt, monotonic }: StationFacts): Blind | undefined {
  if (was === undefined) return undefined;
  const caughtUp = contact.kind === 'live' && heardAt !== undefined && heardAt >= was.endedAt;
  if (caughtUp && monotonic - was.endedAt > blindBounds.awayTold) return undefined;
  const long = lasting(was.forMilliseconds);
  return {
    kind: 'was away',
    level: 'warn',
    head:
      was.why === 'background' ? `This page was in the background for ${long}.` : `This page stood still for ${long}.`,
    rest: caughtUp
      ? 'It has caught up: look through what changed meanwhile.'
      : 'It is catching up: what stands below is from before.',
  };
}

function clockStepped({ view, contact }: StationFacts): Blind | undefined {
  const step = view?.clockStep;
  if (step === undefined || contact.kind === 'never heard') return undefined;
  if (Math.abs(contact.now - step.at) > blindBounds.clockStepTold) return undefined;
  const { steppedMilliseconds: by } = step;
  return {
    kind: 'clock stepped',
    level: 'warn',
    head: `The station's clock was set ${by > 0 ? 'forward' : 'back'} by ${lasting(Math.abs(by))} at ${clockText(step.at)}.`,
    rest: 'Times before and after it do not compare. See which of them is right, and write it down as a note.',
  };
}

function clocksApart({ clockLead }: StationFacts): Blind | undefined {
  if (clockLead === undefined || Math.abs(clockLead) <= blindBounds.clocksApart) return undefined;
  return {
    kind: 'clocks apart',
    level: 'warn',
    head: `The clock of this device is ${lasting(Math.abs(clockLead))} ${clockLead > 0 ? 'ahead of' : 'behind'} the station's.`,
    rest: "Every time on this page is the station's, and so is the record's. Put right the one that is wrong.",
  };
}

/** Of one open joint, by the station's time; nothing while the station itself is not heard. */
export function dataBlindness(live: LiveJoint, now: Instant | undefined, lookedForMilliseconds: number): Blind[] {
  const { assessment, newest, periodMilliseconds } = live;
  if (assessment.phase === 'closed' || now === undefined) return [];
  const asked = assessment.probes.filter(({ required }) => required);
  const names = (asked.length > 0 ? asked : assessment.probes).map(({ probe }) => probe);
  const never = names.filter((probe) => newest[probe] === undefined);
  const ageOf = (probe: string): number => now - (newest[probe]?.at ?? now);
  const old = names.filter((probe) => ageOf(probe) >= blindBounds.oldPeriods * periodMilliseconds);
  const list: Blind[] = [];
  if (never.length > 0 && lookedForMilliseconds >= blindBounds.noData)
    list.push({
      kind: 'no data',
      level: 'stop',
      head: `No data: nothing has ever come from ${listText(never)}.`,
      rest: 'See that the board has power, that its cable is in, and that board and channel are as the joint says.',
    });
  if (old.length > 0)
    list.push({
      kind: 'old data',
      level: 'stop',
      head: `Old data: ${listText(old)} not heard for ${lasting(Math.max(...old.map(ageOf)))}.`,
      rest: 'What stands there is not the present. Look at the board and its cable; measure by hand meanwhile.',
    });
  return list;
}
