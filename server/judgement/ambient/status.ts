/** What is told of the check at ambient. */
import type { Instant } from '../../measure/quantity.ts';
import type { AmbientOutcomes } from './touch.ts';

export interface AmbientStatus {
  readonly asked: 'required' | 'remarked' | 'not asked';
  /** Probes that no check has seen on the wire that they hang on now. */
  readonly unchecked: readonly string[];
  /** The newest one. */
  readonly made?: AmbientOutcomes & {
    readonly at: Instant;
    readonly who: string;
    readonly airCelsius: number;
    readonly airReadWith?: string;
  };
}
