/** A table pasted from a certificate: a row of symbols, perhaps a row of scales, and rows of values under them. */
import type { Element } from '../../../server/weld/composition.ts';
import { type Token, tokensOf } from './paste-tokens.ts';
import type { Scale } from './paste-words.ts';

export interface Column {
  /** Undefined for a column that is no element. */
  readonly element: Element | undefined;
  readonly name: string;
  readonly scale: Scale | undefined;
}

export interface Head {
  /** Between cells; undefined where only spaces part them. */
  readonly separator: string | undefined;
  readonly columns: readonly Column[];
  /** Words before the first symbol, which name columns of their own. */
  readonly labels: number;
}

/** The head of a table: at least two symbols, no value. */
export const headOf = (line: string): Head | undefined => {
  const tokens = tokensOf(line);
  const first = tokens.findIndex(({ kind }) => kind === 'symbol');
  if (tokens.filter(({ kind }) => kind === 'symbol').length < 2) return undefined;
  if (tokens.some(({ kind }) => kind === 'value')) return undefined;
  const separator = ['\t', ';', '|', ','].find((sign) => line.split(sign).length > 2);
  if (separator !== undefined)
    return { separator, labels: 0, columns: line.split(separator).map((cell) => columnOf(tokensOf(cell)[0], cell)) };
  return { separator, labels: first, columns: tokens.slice(first).map((token) => columnOf(token, token.text)) };
};

export interface TableRow {
  readonly label: string;
  /** Text under each column, empty where nothing stands. */
  readonly cells: readonly string[];
}

/** The row under its head, the scales of the columns, or in words why it cannot be told which value is whose. */
export const rowOf = (head: Head, line: string): TableRow | { readonly scales: Head } | string => {
  const scales = scalesOf(head, line);
  if (scales !== undefined) return { scales };
  if (limits.test(line)) return 'a row of limits, not of an analysis';
  const { columns } = head;
  if (head.separator !== undefined) {
    const cells = line.split(head.separator).map((cell) => cell.trim());
    const wanted = columns.length;
    if (cells.length > wanted || (head.separator === ',' && cells.length !== wanted))
      return miscount(cells.length, wanted);
    // What stands before the first element names the row; what follows is a column of its own.
    const first = columns.findIndex(({ element }) => element !== undefined);
    const label = cells.slice(0, Math.max(0, first)).join(' ').trim();
    return limits.test(label) ? 'a row of limits, not of an analysis' : { label, cells };
  }
  if (/\d\s*max\.?\s+[\d.,]/i.test(line)) return '"max" between two numbers can belong to either';
  const tokens = tokensOf(line);
  const before = tokens.slice(0, tokens.length - columns.length);
  if (tokens.length < columns.length) return miscount(tokens.length, columns.length);
  if (head.labels === 0 && before.some(({ kind, text }) => kind === 'value' && /[.,]/.test(text)))
    return miscount(tokens.length, columns.length);
  return {
    label: before.map(({ text }) => text).join(' '),
    cells: tokens.slice(before.length).map(({ text }) => text),
  };
};

const limits = /^\W*(min|max|spec|limit|requirement|required)/i;

const columnOf = (token: Token | undefined, text: string): Column =>
  token?.kind === 'symbol'
    ? { element: token.element, name: token.text, scale: token.scale }
    : { element: undefined, name: text.trim(), scale: undefined };

const scalesOf = (head: Head, line: string): Head | undefined => {
  const cells = head.separator === undefined ? tokensOf(line).map(({ text }) => text) : line.split(head.separator);
  const read = cells.map((cell) => tokensOf(cell));
  if (!read.some(([token]) => token?.kind === 'scale')) return undefined;
  if (read.some((tokens) => tokens.some(({ kind }) => kind === 'value'))) return undefined;
  const skipped = head.separator === undefined ? cells.length - head.columns.length : 0;
  if (skipped < 0) return undefined;
  return {
    ...head,
    columns: head.columns.map((column, at) => {
      const [token] = read[at + skipped] ?? [];
      return token?.kind === 'scale' ? { ...column, scale: token.scale } : column;
    }),
  };
};

const miscount = (found: number, wanted: number): string =>
  `${found} cells under ${wanted} columns: which value belongs to which symbol cannot be told`;
