/** How the soak stands: which rule, how long it asks for, how much of it is done. */
import type { Instant, Milliseconds } from '../measure/quantity.ts';

export interface SoakStatus {
  /** opposite: measured opposite the heat, no wait. wait: heat off and wait. hold: heaters stay on. through thickness: no rule of thumb, judged by conduction alone. none: no rule can be applied. */
  readonly rule: 'opposite' | 'wait' | 'hold' | 'through thickness' | 'none';
  readonly state: 'not begun' | 'running' | 'paused' | 'done' | 'voided' | 'not needed' | 'not judged';
  readonly required?: Milliseconds;
  readonly done?: Milliseconds;
  readonly since?: Instant;
  readonly doneAt?: Instant;
  /** Stays when the soak is lost later: a closed joint has cooled. */
  readonly firstDoneAt?: Instant;
  readonly voidedBy?: 'heat on' | 'below minimum' | 'gap' | 'guard band' | 'still rising' | 'break';
  /** Paused since a place lies within the guard band, and not for a missing reading. */
  readonly pausedNear?: true;
}
