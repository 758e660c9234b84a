/** What the judge remembers of the time after the last arc. */
import type { Instant, MilliCelsius, Milliseconds } from '../../measure/quantity.ts';
import type { HoldState } from '../hold.ts';
import type { SpotStatus } from './after-status.ts';

export interface AfterState {
  /** Falls below the minimum since the last pass ended, each confirmed: they count once welding is said to be complete. */
  falls: { from: Instant; to?: Instant; probe: string; lowest: MilliCelsius; key?: string }[];
  completedAt?: Instant;
  postHeating?: PostHeatingState;
  cover?: 'on' | 'off';
  /** First instant since the end of welding at which every zone place was cool enough for heat treatment. */
  cooledAt?: Instant;
  heatTreatmentAt?: Instant;
  ambientAt?: Instant;
  /** Zone probes once a minute over the window of a rate: instant, temperature, instant, temperature. */
  marks: { [probe: string]: number[] };
  /** Open findings of a rate, by probe. */
  tooFast: { [probe: string]: string };
  spots: SpotStatus[];
}

export interface PostHeatingState {
  begunAt: Instant;
  endedAt?: Instant;
  hold: HoldState;
  longest: Milliseconds;
}

export const nothingAfter = (): AfterState => ({ falls: [], marks: {}, tooFast: {}, spots: [] });
