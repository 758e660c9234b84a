/**
 * Measured values thinned for a view without hiding a peak: of each step the first, the lowest, the highest
 * and the last value are kept, and a step without a value is a gap.
 */
import type { Instant } from './quantity.ts';

/** One probe over the asked span. Each step: [from, first, minimum, maximum, last] in thousandths of a degree Celsius, or null where nothing was measured. */
export type HistoryStep =
  | [at: number, first: number, minimum: number, maximum: number, last: number]
  | [at: number, none: null];

export interface HistorySeries {
  readonly probe: string;
  readonly steps: readonly HistoryStep[];
  /** Expanded uncertainty (k = 2) of each step, thousandths of a kelvin, 0 of a gap; absent where it is not kept. */
  readonly expandedUncertainty?: readonly number[];
}

export interface HistoryView {
  readonly from: Instant;
  readonly to: Instant;
  readonly stepMilliseconds: number;
  readonly series: readonly HistorySeries[];
}
