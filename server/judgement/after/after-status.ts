/** What comes after the last arc, as it stands: post-heating, cooling, the wait before testing, the spots of probes. */
import type { Instant, MilliCelsius, Milliseconds } from '../../measure/quantity.ts';

export interface AfterStatus {
  /** When the last arc went out, as it was entered. */
  readonly completedAt: Instant;
  readonly postHeating?: PostHeatingStatus;
  readonly cover?: {
    readonly state: 'on' | 'off' | 'not entered';
    /** It stays on down to this temperature. */
    readonly until: MilliCelsius;
  };
  readonly heatTreatment?: {
    /** Every zone place has to have been at this temperature or below before. */
    readonly coolTo: MilliCelsius;
    readonly cooledAt?: Instant;
    readonly latestAt?: Instant;
    readonly begunAt?: Instant;
  };
  readonly wait: WaitStatus;
  /** Probes that were welded on, where the procedure asks for their spots to be examined. */
  readonly spots: readonly SpotStatus[];
}

export interface PostHeatingStatus {
  readonly state: 'not begun' | 'running' | 'paused' | 'voided' | 'done' | 'ended';
  readonly minimum: MilliCelsius;
  readonly maximum?: MilliCelsius;
  readonly counted: 'continuous' | 'cumulative';
  readonly required: Milliseconds;
  readonly held: Milliseconds;
  readonly begunAt?: Instant;
  readonly doneAt?: Instant;
  readonly endedAt?: Instant;
}

export type WaitStatus =
  /** No rule was chosen, or it gives no time for this joint. */
  | { readonly state: 'not known' }
  /** Counts from when the joint is at ambient temperature. */
  | { readonly state: 'cooling'; readonly hours: number; readonly to: MilliCelsius }
  | { readonly state: 'waiting' | 'over'; readonly hours: number; readonly from: Instant; readonly until: Instant };

export interface SpotStatus {
  readonly probe: string;
  readonly examined?: {
    readonly method: string;
    readonly result: 'no indication' | 'indication';
    readonly at: Instant;
  };
}
