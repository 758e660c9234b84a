/** What a connected instrument told of its channels at one time. A channel that it did not speak of is not in it; one that failed is. */
import type { DeciMicrovolt, MilliCelsius } from '../measure/quantity.ts';
import type { FaultMeaning } from './connection/channel.ts';

export type ToldValue = {
  readonly channel: number;
  /** As it came: registers in hexadecimal, the words of a line; or why nothing came. Never empty. */
  readonly said: string;
} & (
  | { readonly fault: FaultMeaning }
  /** The instrument's own temperature. */
  | { readonly reported: MilliCelsius }
  | { readonly deciMicrovolts: DeciMicrovolt; readonly coldJunction: MilliCelsius }
);

export interface Told {
  /** Changes when the station begins to read it anew. */
  readonly boot: number;
  readonly sequence: number;
  /** Of the clock that timed the reading, milliseconds: the station's own, or that of the file. */
  readonly ticks: number;
  readonly values: readonly ToldValue[];
}
