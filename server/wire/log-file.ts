/**
 * An imported log (delimited text or a workbook, one row a scan) to scans. The file is walked three times: to see how it is
 * written, to see what it is and what is wrong with it, and again for each walk over its scans, which are made one by one, so
 * that a long log needs no more memory than its bytes.
 *
 * Nothing is made up: an empty cell, a dash or NaN is 'no reading'; a number outside the usable range of
 * the thermocouple type is 'out of range'; a word is 'no reading' and is remarked; the text of every cell
 * is kept. A row whose time does not go forward is a problem. A line that holds no reading is listed.
 */
import type { Instant, Milliseconds } from '../measure/quantity.ts';
import type { Scan } from '../weld/scan.ts';
import { firstRecordsOf, layoutOf } from './log-layout.ts';
import type { LogProblem } from './log-problem.ts';
import { type LogGuess, type LogMapping, shapeOf } from './log-shape.ts';
import { type LogSource, textSource, type Unread } from './log-source.ts';
import { survey } from './log-survey.ts';
import type { TimeForm } from './log-time.ts';

export type { LogMapping } from './log-shape.ts';

export interface Log {
  /** The scans in order of time. Each walk reads the file's bytes again; none is kept. */
  readonly scans: Iterable<Scan>;
  /** What makes the log unfit as it stands. At most 100, then a count. */
  readonly problems: readonly LogProblem[];
  /** What is worth telling and spoils nothing. */
  readonly remarks: readonly LogProblem[];
  /** Lines that were read past, each with what it is. */
  readonly skipped: readonly LogProblem[];
  /** How the file was read; absent where it could not be told. */
  readonly guess?: LogGuess;
  readonly rows: number;
  /** Median step between two rows; absent with fewer than two rows. */
  readonly periodMilliseconds?: Milliseconds;
  readonly firstAt?: Instant;
  readonly lastAt?: Instant;
  /** How the time column is written; absent if it cannot be read. */
  readonly timeForm?: TimeForm;
}

export const readLog = (from: string | Uint8Array | LogSource | Unread, mapping: LogMapping): Log => {
  const source = typeof from === 'string' || from instanceof Uint8Array ? textSource(from) : from;
  if ('problem' in source) return unfit([source.problem]);
  const names = [...Object.keys(mapping.columns ?? {}), ...mapping.probes.map(({ id }) => id)];
  if (mapping.timeColumn !== undefined) names.push(mapping.timeColumn);
  const cut = source.delimiters
    .filter((delimiter) => mapping.delimiter === undefined || delimiter === mapping.delimiter)
    .map((delimiter) => [delimiter, firstRecordsOf(source.records(delimiter))] as const);
  const layout = layoutOf(cut, { names, headerLine: mapping.headerLine });
  if (layout === undefined) {
    const broken = cut.flatMap(([, items]) => items.flatMap((item) => ('problem' in item ? [item] : [])))[0];
    const message =
      broken?.problem ?? 'there is no header: a line of column names parted by comma, semicolon or tab is needed';
    return unfit([{ ...(broken === undefined ? {} : { line: broken.line }), message }]);
  }
  const { shape, guess, problems } = shapeOf(source, layout, mapping);
  // Without every probe in its column the rows say nothing that may be judged.
  return problems.length > 0 ? { ...unfit(problems), guess } : { ...survey(shape), guess };
};

const unfit = (problems: readonly LogProblem[]): Log => ({ scans: [], problems, remarks: [], skipped: [], rows: 0 });
