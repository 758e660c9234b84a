/**
 * What each alarm is worth and how it is kept from crying wolf: the table that IEC 62682 calls rationalisation. The
 * standard (second-hand) asks for priority, delays and deadband of each; every number here is our own choice, with its
 * reason. What a person is told, why it matters and what to do first stand in wording/alarm.ts.
 *
 * Only what a person can still do something about, in time, is an alarm. The rest are findings.
 */
import { type Milliseconds, minutes, seconds } from '../measure/quantity.ts';
import type { Alarm, AlarmKind, Suppression } from './assessment.ts';

/** high: at once, steel or weld is at stake. medium: within minutes. low: before the next pass. */
export type AlarmPriority = 'high' | 'medium' | 'low';
export const alarmPriorities: readonly AlarmPriority[] = ['high', 'medium', 'low'];

export interface AlarmRule {
  readonly priority: AlarmPriority;
  /** Wrong for this long before it is announced. */
  readonly delayOn: Milliseconds;
  /** Right again for this long, past the deadband, before it counts as right. */
  readonly delayOff: Milliseconds;
  /** How far past the limit counts as right again, thousandths of a kelvin. 0: what is watched is no temperature. */
  readonly deadbandMillikelvin: number;
}

/**
 * 3 K is one part in a hundred of 300 degrees, the starting point of the trade (from memory), and a little more than a
 * thermostat swings. A minute is longer than one swing of a torch and short against the heating of a thick part.
 */
const deadbandMillikelvin = 3_000;
const steadyFor = seconds(60);

export const alarmRules: { readonly [kind in AlarmKind]: AlarmRule } = {
  /** Cracks are made while the arc burns. 10 s lets one burst of arc noise pass; 60 s, the usual delay, would let pass half a bead. */
  'below minimum': { priority: 'high', delayOn: seconds(10), delayOff: steadyFor, deadbandMillikelvin },
  /** The inside moves slowly and lies below the minimum only after minutes: half a minute costs nothing. */
  'through thickness lost': { priority: 'high', delayOn: seconds(30), delayOff: steadyFor, deadbandMillikelvin },
  /** What overheating does to steel is not undone. As long as an excess takes to be a finding. */
  'above highest temperature': { priority: 'high', delayOn: seconds(5), delayOff: steadyFor, deadbandMillikelvin },
  /** A forecast from a trend of minutes: it has to stand for half a minute. */
  'break near its end': { priority: 'low', delayOn: seconds(30), delayOff: steadyFor, deadbandMillikelvin: 0 },
  'maintenance temperature lost': {
    priority: 'medium',
    delayOn: seconds(10),
    delayOff: steadyFor,
    deadbandMillikelvin,
  },
  /**
   * A port that is lost is opened again within some seconds: that is not yet a dead board. With a loose cable it comes and
   * goes: it is told once, and counts as back when it has stayed as long as a probe that came and went has to.
   */
  'board silent': { priority: 'medium', delayOn: seconds(15), delayOff: minutes(5), deadbandMillikelvin: 0 },
  /** Three periods without a reading make the trouble; a plug that is moved takes some seconds more. */
  'probe fault': { priority: 'low', delayOn: seconds(10), delayOff: steadyFor, deadbandMillikelvin: 0 },
  'probe silent': { priority: 'low', delayOn: seconds(10), delayOff: steadyFor, deadbandMillikelvin: 0 },
  'far face not as computed': { priority: 'low', delayOn: seconds(30), delayOff: steadyFor, deadbandMillikelvin: 0 },
  /** Never folded: a joint that is not recorded concludes nothing. The screen makes it of the station's word. */
  'not recording': { priority: 'high', delayOn: seconds(0), delayOff: seconds(0), deadbandMillikelvin: 0 },
};

/** First-out: while the alarm on the right stands, those on the left follow from it and are not announced. */
export const followsFrom: { readonly [kind in AlarmKind]?: AlarmKind & Suppression } = {
  'probe fault': 'board silent',
  'probe silent': 'board silent',
  /** A face that is too cold is told already, and the same heat puts both right. */
  'through thickness lost': 'below minimum',
};

/** How long before its end a break is announced, and how far it has to move away again. As long as it takes to heat a torch and walk. */
export const breakNearItsEnd = minutes(5);
export const breakNoLongerNear = minutes(8);

/** Longest time that an alarm may be put aside. High: while somebody stands beside it. Low: a shift. */
export const shelvedAtMost: { readonly [priority in AlarmPriority]: Milliseconds } = {
  high: minutes(10),
  medium: minutes(60),
  low: minutes(480),
};

export const alarmPriority = ({ kind }: { readonly kind: AlarmKind }): AlarmPriority => alarmRules[kind].priority;

/** People know of it and it is theirs to see to: neither put aside nor held back by a rule. */
export const isTold = ({ suppressed, shelved }: Alarm): boolean => suppressed === undefined && shelved === undefined;

/** Announced, and nobody has taken note of it yet: what lamp, horn and screen call for. */
export const isRinging = (alarm: Alarm): boolean => alarm.state === 'active' && isTold(alarm);
