/** What the page of logs is answered: how each file was read, what has to be asked, and the judgement once nothing has. */
import type { Assessment } from '../judgement/assessment.ts';
import type { Instant } from '../measure/quantity.ts';
import type { LogRead } from '../weld/imported.ts';

export interface LogLine {
  readonly line?: number;
  readonly column?: string;
  readonly message: string;
  readonly question?: { readonly asks: string; readonly choices?: readonly string[] };
}

export interface LogFileView {
  readonly name: string;
  readonly rows: number;
  readonly firstAt?: Instant;
  readonly lastAt?: Instant;
  readonly timeForm?: 'stamped' | 'local' | 'elapsed';
  /** Absent where not even a header was found. */
  readonly guess?: {
    readonly written: string;
    readonly delimiter: string;
    readonly headerLine: number;
    readonly header: readonly string[];
    readonly timeColumn: string;
    readonly dateColumn?: string | undefined;
    readonly probes: readonly { readonly probe: string; readonly column: string; readonly unit: string }[];
    readonly decimal: string;
    readonly sheet?: { readonly name: string; readonly choices: readonly string[] };
    readonly timeUnit?: string;
    readonly time: {
      readonly order?: string | undefined;
      readonly numbers?: string | undefined;
      readonly clock?: string | undefined;
    };
  };
  /** How the file begins, cut as it was read, so that a wrong line of column names can be seen and put right. */
  readonly begins: readonly { readonly line: number; readonly text: string }[];
  /** The same as it is kept and told in words. */
  readonly read?: LogRead;
  readonly problems: readonly LogLine[];
  readonly remarks: readonly LogLine[];
  readonly skipped: readonly LogLine[];
}

export interface LogsView {
  readonly files: readonly LogFileView[];
  /** Of the files together, and of the acts. */
  readonly problems: readonly LogLine[];
  readonly remarks: readonly LogLine[];
  readonly probes: readonly string[];
  /** Absent while something has to be asked or put right. */
  readonly assessment?: Assessment;
}

/** What a page says of its logs: the files by the name they were handed in under, and the answers to what was asked. */
export interface LogsAsked {
  /** The text of a joint file. */
  readonly joint: unknown;
  readonly files: readonly {
    readonly id: string;
    readonly name: string;
    /** What holds for this file in place of what holds for all. */
    readonly said?: Readonly<Record<string, unknown>>;
  }[];
  readonly said: Readonly<Record<string, unknown>>;
  /** Events files, as text; without a name what was typed. */
  readonly events: readonly { readonly name?: string; readonly text: string }[];
}

/** The logs are to be kept as the record of a joint. */
export interface LogsKept extends LogsAsked {
  /** Name that the joint has in the record, which no other has. */
  readonly id: string;
  readonly who: unknown;
  /** On deviations, by whoever keeps it. */
  readonly decisions?: readonly unknown[];
}
