/**
 * A job that was measured elsewhere and is kept here from its logs. Its entries say when they were written here, like all
 * others, and beside it when it was by the log; what was done there was entered by nobody at this station, so that who did it
 * stands in the entry's body, and whoever kept it before it.
 */
import type { Instant } from '../measure/quantity.ts';
import type { Act } from './entry.ts';

/** How a log was read: what was found out from it, and what a person said. Told with the result, so that it can be doubted. */
export interface LogRead {
  /** Encoding of a text, or which sheet of a workbook. */
  readonly written: string;
  readonly delimiter: string;
  readonly headerLine: number;
  readonly timeColumn: string;
  readonly dateColumn?: string | undefined;
  readonly decimal: string;
  readonly order?: string | undefined;
  readonly numbers?: string | undefined;
  readonly clock?: string | undefined;
  readonly timeUnit?: string | undefined;
  readonly zone?: string | undefined;
  readonly offsetMinutes?: number | undefined;
  /** As 2026-11-25. */
  readonly day?: string | undefined;
  readonly start?: Instant | undefined;
  readonly probes: readonly { readonly probe: string; readonly column: string; readonly unit: string }[];
  readonly leftOut: readonly string[];
  /** Names of what a person said, where the file alone would not have been read so. */
  readonly said: readonly string[];
}

/** A line of the file that holds no reading, or one that was asked to be left out. */
export interface PassedOver {
  readonly line?: number;
  readonly message: string;
}

/** A file that the record was made from. The file itself is not kept: whoever has it can compare its SHA-256. */
export interface ImportedFile {
  readonly kind: 'imported file';
  readonly of: 'log' | 'events';
  readonly name: string;
  readonly bytes: number;
  readonly sha256: string;
  /** By the line of time of the log on which the judge goes. */
  readonly loggedAt: Instant;
  /** Of a log. */
  readonly rows?: number;
  readonly firstAt?: Instant;
  readonly lastAt?: Instant;
  readonly read?: LogRead;
  readonly passedOver?: readonly PassedOver[];
}

/** What was done there, by whom and when, as an events file or the page says it. */
export interface ImportedAct {
  readonly kind: 'imported act';
  readonly loggedAt: Instant;
  readonly who: string;
  readonly role?: string;
  readonly act: Act;
}
