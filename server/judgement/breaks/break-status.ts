/** A break as it stands or stood: why it is one, how cold the joint came and for how long, what is asked for before going on. */
import type { Instant, MilliCelsius, Milliseconds } from '../../measure/quantity.ts';
import type { AfterBreakAsk } from '../../weld/break.ts';
import type { Bound } from '../../weld/hand-reading.ts';

export interface BreakStatus {
  readonly from: Instant;
  /** Absent while it lasts. */
  readonly to?: Instant;
  /** Declared, or no pass for longer than the procedure's time, or the temperature to be kept was lost. */
  readonly by: 'declared' | 'no pass' | 'too cold';
  readonly who?: string;
  readonly reason?: string;
  /** What the coldest required place came down to. */
  readonly coldest?: { readonly probe: string; readonly temperature: MilliCelsius; readonly bound?: Bound };
  /** The temperature to be kept; absent where neither it nor a minimum is known. */
  readonly limit?: MilliCelsius;
  readonly kept: 'warm' | 'below' | 'not known';
  /** How long a place was below it, in all. */
  readonly below: Milliseconds;
  /** Beside the minimum. Absent: the procedure does not say. */
  readonly asks?: readonly AfterBreakAsk[];
  /** Welding went on since; what was asked for is asked for no longer. */
  readonly answered?: true;
  /** The newest one that counts. */
  readonly inspection?: Inspection;
}

export interface Inspection {
  readonly who: string;
  readonly role?: string;
  readonly method: string;
  readonly result: 'no indication' | 'indication';
  readonly note?: string;
  readonly at: Instant;
}
