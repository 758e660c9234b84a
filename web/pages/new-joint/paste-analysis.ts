/**
 * Reads what was pasted of a certificate: pairs as in "C 0.17 Si 0,35 Nb <0.005 B 5 ppm", or tables with a row of
 * symbols. Everything that is not read is listed with its reason. Nothing is guessed, and nothing is entered: the
 * result is for a person to compare with the paper.
 */
import type { Element } from '../../../server/weld/composition.ts';
import { contentSlip } from '../../../server/weld/composition-slip.ts';
import type { ContentDraft } from './draft.ts';
import { type Head, headOf, rowOf, type TableRow } from './paste-table.ts';
import { type Token, tokensOf } from './paste-tokens.ts';
import { type DecimalSigns, decimalSigns, readValue } from './paste-value.ts';
import { asideBecause, type Scale } from './paste-words.ts';

export interface PastedRow {
  readonly element: Element;
  /** As it stands on the paper, with the scale of its column. */
  readonly read: string;
  readonly content: ContentDraft;
  /** What speaks against it, in words: a carbon of 18 %. */
  readonly slip?: string;
}

export interface PastedSample {
  /** What stands before the row of values; empty where nothing does. */
  readonly label: string;
  readonly rows: readonly PastedRow[];
}

export interface Aside {
  readonly text: string;
  readonly why: string;
}

export interface Pasted {
  /** One for each row of values: two heats on one paper are two analyses. */
  readonly samples: readonly PastedSample[];
  readonly aside: readonly Aside[];
}

export const readCertificate = (text: string): Pasted => {
  const signs = decimalSigns(text);
  const samples: Gathered[] = [];
  const aside: Aside[] = [];
  let pairs: Gathered | undefined;
  let head: Head | undefined;
  for (const line of text.split(/\r?\n/).filter((each) => /[\p{L}\d%]/u.test(each))) {
    const next = headOf(line);
    if (next !== undefined) {
      head = next;
      continue;
    }
    const found = pairsOf(line, signs);
    if (head !== undefined && found.pairs.length === 0) {
      const row = rowOf(head, line);
      if (typeof row === 'string') aside.push({ text: line.trim(), why: row });
      else if ('scales' in row) head = row.scales;
      else samples.push(gathered(row.label, underHead(head, row, signs, aside), aside));
      continue;
    }
    aside.push(...found.aside);
    if (found.pairs.length === 0) continue;
    const again = found.pairs.length > 1 && found.pairs.some(({ element }) => pairs?.seen.has(element) === true);
    if (pairs === undefined || again) {
      pairs = gathered('', [], aside);
      samples.push(pairs);
    }
    for (const pair of found.pairs) take(pairs, pair, aside);
  }
  return { samples: samples.map(sampleOf).filter(({ rows }) => rows.length > 0), aside };
};

interface Pair {
  readonly element: Element;
  readonly text: string;
  readonly row: PastedRow | undefined;
}

interface Gathered {
  readonly label: string;
  readonly seen: Map<Element, PastedRow | undefined>;
}

/** A sample in the making. An element that stands in it twice with different values is taken from neither place. */
const gathered = (label: string, pairs: readonly Pair[], aside: Aside[]): Gathered => {
  const sample: Gathered = { label, seen: new Map() };
  for (const pair of pairs) take(sample, pair, aside);
  return sample;
};

const take = ({ seen }: Gathered, { element, text, row }: Pair, aside: Aside[]): void => {
  const before = seen.get(element);
  if (!seen.has(element)) seen.set(element, row);
  else if (row?.read !== before?.read) {
    seen.set(element, undefined);
    aside.push({ text, why: `${element} stands here twice${before === undefined ? '' : `, also as ${before.read}`}` });
  }
};

const sampleOf = ({ label, seen }: Gathered): PastedSample => ({
  label,
  rows: [...seen.values()].filter((row) => row !== undefined),
});

const pairOf = (element: Element, symbol: string, scale: Scale | undefined, text: string, signs: DecimalSigns) => {
  const value = readValue(text, scale, signs);
  const shown = scale === undefined ? text : `${text} ${scale.words}`;
  if (value.kind === 'refused') {
    const why = { text: `${symbol} ${shown}`, why: value.why };
    return { pair: { element, text: why.text, row: undefined }, aside: [why] };
  }
  const slip = value.kind === 'content' ? contentSlip(element, value.percent) : undefined;
  const row: PastedRow = { element, read: shown, content: value.content, ...(slip === undefined ? {} : { slip }) };
  return { pair: { element, text: `${symbol} ${shown}`, row }, aside: [] };
};

const underHead = (head: Head, { cells }: TableRow, signs: DecimalSigns, aside: Aside[]): Pair[] =>
  head.columns.flatMap(({ element, name, scale }, at): Pair[] => {
    const text = cells[at] ?? '';
    if (text === '') return [];
    if (element === undefined) {
      const why = asideBecause(name);
      if (why !== 'not understood' && tokensOf(text)[0]?.kind === 'value') aside.push({ text: `${name} ${text}`, why });
      return [];
    }
    const read = pairOf(element, element, scale, text, signs);
    aside.push(...read.aside);
    return [read.pair];
  });

/** The pairs of one line. A symbol beside which two numbers stand has none: the line does not say which. */
const pairsOf = (line: string, signs: DecimalSigns): { readonly pairs: readonly Pair[]; readonly aside: Aside[] } => {
  const pairs: Pair[] = [];
  const aside: Aside[] = [];
  const tokens = tokensOf(line);
  for (let at = 0; at < tokens.length; ) {
    const token = tokens[at]!;
    const values = valuesAfter(tokens, at);
    at += 1 + values.length;
    if (token.kind === 'symbol' && values.length === 1) {
      const read = pairOf(token.element, token.text.replace(/[\s:=,]+.*$/, ''), token.scale, values[0]!.text, signs);
      pairs.push(read.pair);
      aside.push(...read.aside);
    } else if (token.kind === 'symbol' && values.length > 1) {
      const text = [token, ...values].map((each) => each.text).join(' ');
      pairs.push({ element: token.element, text, row: undefined });
      aside.push({ text, why: `${values.length} values beside ${token.element}: which one is the analysis?` });
    } else if (token.kind === 'symbol') {
      // A name and its symbol side by side are one: "Carbon C 0.17".
      const next = tokens[at];
      if (next?.kind !== 'symbol' || next.element !== token.element)
        aside.push({ text: token.text, why: 'no number beside it' });
    } else {
      const text = [token, ...values].map((each) => each.text).join(' ');
      aside.push({ text, why: values.length > 0 ? asideBecause(token.text) : 'not understood' });
    }
  }
  return { pairs, aside };
};

const valuesAfter = (tokens: readonly Token[], at: number): readonly Token[] => {
  const end = tokens.findIndex(({ kind }, index) => index > at && kind !== 'value');
  return tokens.slice(at + 1, end === -1 ? tokens.length : end);
};
