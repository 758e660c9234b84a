/** How one probe stands: its newest value, whether it is believed, and why not. */
import type { Instant, MilliCelsius, Millikelvin } from '../measure/quantity.ts';
import type { Place, ProbeUse } from '../weld/probe.ts';
import type { Quality } from '../weld/scan.ts';

export interface ProbeStatus {
  readonly probe: string;
  readonly use: ProbeUse;
  readonly place?: Place;
  /** The newest value that came in, good or not. Absent if none ever came. */
  readonly quality?: Quality;
  readonly temperature?: MilliCelsius;
  readonly measuredAt?: Instant;
  /** Younger than three periods. */
  readonly fresh: boolean;
  /** Good, fresh and without an open probe finding. */
  readonly trusted: boolean;
  /** What the corrections of its chain added to the newest reading; absent where nothing did. */
  readonly correction?: Millikelvin;
  /** Expanded uncertainty (k = 2) of the newest reading; absent where uncertainty is not kept. */
  readonly expandedUncertainty?: Millikelvin;
  /** Change over the last minutes, thousandths of a kelvin per minute. */
  readonly trendPerMinute?: Millikelvin;
  /** Left the judgement, by a named person or by the procedure's rule. */
  readonly distrusted?: Distrust;
  /** Must be at minimum for the joint to be ready. */
  readonly required: boolean;
}

export interface Distrust {
  readonly since: Instant;
  readonly by: 'person' | 'rule';
  /** The person, where it was one. */
  readonly who?: string;
}
