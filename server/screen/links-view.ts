/** What the page of links shows: ports, boards, counts, raw lines, captures. */
import type { Instant } from '../measure/quantity.ts';

export interface LinkRow {
  readonly port: string;
  readonly state: 'opening' | 'waiting for hello' | 'open' | 'lost' | 'refused';
  readonly cause: string;
  readonly leftAlone: boolean;
  readonly board?: string;
  readonly simulated?: boolean;
  /** Adapter and driver, as far as the system tells. */
  readonly hardware: string;
  /** What is to be known and done, most urgent first; at least one. */
  readonly words: readonly string[];
  readonly isWell: boolean;
  /** Of the last ten seconds; absent where the link does not say. */
  readonly linesPerSecond?: number;
  readonly lastAt?: Instant;
  readonly linesGood: number;
  readonly linesBad: number;
  readonly linesMissing: number;
  readonly bytesDropped: number;
  readonly faults: readonly { readonly what: string; readonly times: number }[];
  readonly baudRate?: number;
  readonly openings?: number;
  readonly losses?: number;
  /** It can be tried here. */
  readonly isBoardPort: boolean;
  /** Its lines can be shown, and all that goes over it captured. */
  readonly isHeard: boolean;
  readonly canCapture: boolean;
  readonly capturing?: { readonly name: string; readonly until: Instant };
}

/** A port of this computer that the station does not open. */
export interface PortRow {
  readonly port: string;
  readonly hardware: string;
  readonly words: string;
}

export interface CaptureRow {
  readonly name: string;
  readonly bytes: number;
  readonly isRunning: boolean;
}

export interface LinksView {
  readonly links: readonly LinkRow[];
  readonly unopened: readonly PortRow[];
  readonly captures: readonly CaptureRow[];
}

export interface RawLineView {
  readonly number: number;
  readonly at: Instant;
  readonly way: 'in' | 'out';
  readonly text: string;
  readonly fault?: string;
}
