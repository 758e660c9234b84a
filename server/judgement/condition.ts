/** One thing that has to be so before the arc is struck: met, not met or not judged, with its number. */
import type { MilliCelsius, Millikelvin, Milliseconds } from '../measure/quantity.ts';
import type { Bound } from '../weld/hand-reading.ts';
import type { SectionReason } from './inside/section-status.ts';

export type ConditionId =
  | 'minimum stated'
  | 'zone probes placed'
  | 'minimum reached'
  | 'soak'
  | 'through thickness'
  | 'evenness'
  | 'highest temperature'
  | 'interpass maximum'
  | 'answers given'
  | 'instruments calibrated'
  | 'ambient check'
  | 'after break'
  | 'checks'
  | 'hold points';

export interface Condition {
  readonly id: ConditionId;
  readonly state: 'met' | 'not met' | 'not judged';
  /** Machine-readable reason; worded by server/wording. */
  readonly reason:
    | 'ok'
    | 'below minimum'
    | 'no trusted fresh reading'
    | 'no minimum stated'
    | 'no zone probe'
    | 'side without zone probe at 75 mm'
    | 'heat is on'
    | 'waiting after heat off'
    | 'holding'
    | 'no hold stated'
    | 'face still rising'
    | 'heat state not entered'
    | 'spread too large'
    | 'no limit stated'
    | 'too hot'
    | 'only an untrusted probe is above it'
    | 'no interpass place'
    | 'named answer missing'
    | 'paused by gap'
    | 'no soak needed'
    | 'judged through the thickness'
    | 'stopped within guard band'
    | 'calibration not shown'
    | 'ambient check not made'
    | 'ambient check failed'
    | 'check not answered'
    | 'check not in order'
    | 'hold point not released'
    | 'hold point refused'
    | 'soak again after a break'
    | 'not inspected'
    | 'indication found'
    | 'nothing stated for a cold break'
    | 'nothing stated for a break not read'
    | SectionReason;
  readonly probe?: string;
  readonly value?: MilliCelsius | Millikelvin | Milliseconds;
  readonly limit?: MilliCelsius | Millikelvin | Milliseconds;
  /** Of a value read with a crayon. */
  readonly bound?: Bound;
  /** Time until it is expected to be met, where it can be known. */
  readonly timeToGo?: Milliseconds;
  /** The part whose section holds it up. */
  readonly part?: string;
  /** Names of what is missing: probes, sides, answers. */
  readonly missing?: readonly string[];
}
