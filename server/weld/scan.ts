/**
 * A scan: what one frame of one board said of one joint's probes. It is the only form in which
 * temperatures enter the judge and the record. Every value keeps the raw number it was made from.
 */
import type { DeciMicrovolt, Instant, MilliCelsius } from '../measure/quantity.ts';

/**
 * How far a value can be believed as it came in. Anything but good carries no temperature.
 * 'no reading': the channel's place in the frame or the log was empty.
 */
export const qualities = [
  'good',
  'open',
  'short to ground',
  'short to supply',
  'cold junction out of range',
  'out of range',
  'no reading',
] as const;
export type Quality = (typeof qualities)[number];

/**
 * The number as the instrument gave it: a thermocouple voltage with its cold junction, its own temperature, or text of a log.
 * `said`: what it stood in, where that was no number of a board: registers in hexadecimal, the words of a line, or why nothing came.
 */
export type Raw =
  | {
      readonly form: 'voltage';
      readonly deciMicrovolts: DeciMicrovolt;
      readonly coldJunction: MilliCelsius;
      readonly said?: string;
    }
  | { readonly form: 'temperature'; readonly reported: MilliCelsius; readonly said?: string }
  | { readonly form: 'text'; readonly text: string }
  | { readonly form: 'none'; readonly said?: string };

/** What the instrument said, as it came; undefined for the numbers of a board. */
export const saidBy = (raw: Raw): string | undefined => (raw.form === 'text' ? undefined : raw.said);

export interface ScanValue {
  readonly probe: string;
  readonly quality: Quality;
  /** Present if and only if quality is good. */
  readonly temperature?: MilliCelsius;
  readonly raw: Raw;
}

export interface Scan {
  readonly board: string;
  /** Boot number that the board states; a new one means that its ticks began again. */
  readonly boot: number;
  readonly sequence: number;
  /** Board milliseconds since its boot. */
  readonly ticks: number;
  readonly measuredAt: Instant;
  readonly arrivedAt: Instant;
  /** Sent again after the link had failed. */
  readonly late: boolean;
  /** Digital inputs, bit 0 is input 1 (arc on, where wired). */
  readonly inputs: number;
  readonly values: readonly ScanValue[];
}
