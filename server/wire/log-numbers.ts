/**
 * How the numbers of a log are written: which mark parts the decimals, and which the thousands. "1.050" is one degree or a
 * thousand; what else the file says decides, and where it says nothing a person is asked.
 */
import { readNumber } from '../measure/number-text.ts';
import type { LogProblem } from './log-problem.ts';

export const decimalMarks = ['.', ','] as const;
export type DecimalMark = (typeof decimalMarks)[number];

export type LogNumber =
  | { readonly kind: 'number'; readonly value: number; readonly unit?: 'C' | 'F' }
  | { readonly kind: 'none' | 'not a number' };

/** Reads a cell by the mark that was decided on. A number may carry its unit; groups of three may be parted. */
export const readCell = (text: string, decimal: DecimalMark): LogNumber => {
  const trimmed = text.trim();
  // Nearly every cell of a log is this, and a log has very many.
  if (decimal === '.' ? quick.point.test(trimmed) : quick.comma.test(trimmed)) {
    return { kind: 'number', value: Number(decimal === '.' ? trimmed : trimmed.replace(',', '.')) };
  }
  const number = plainOf(trimmed, decimal);
  if (number !== undefined) return { kind: 'number', value: Number(number) };
  const withUnit = unitBehind.exec(trimmed);
  const bare = withUnit === null ? undefined : plainOf(withUnit[1]!.trim(), decimal);
  if (withUnit !== null && bare !== undefined) {
    return { kind: 'number', value: Number(bare), unit: withUnit[2]!.toUpperCase() as 'C' | 'F' };
  }
  return { kind: readNumber(trimmed).kind === 'none' ? 'none' : 'not a number' };
};

/** The number as a program writes it, or undefined where the text is none by that mark. */
export const plainOf = (text: string, decimal: DecimalMark): string | undefined => {
  const signed = text.replace('\u2212', '-');
  const { single, grouped } = decimal === '.' ? forms.point : forms.comma;
  if (single.test(signed)) return signed.replace(',', '.');
  if (!grouped.test(signed)) return undefined;
  return signed.replaceAll(decimal === '.' ? /[, '’\u00a0\u202f]/g : /[. '’\u00a0\u202f]/g, '').replace(',', '.');
};

const quick = { point: /^-?\d+(?:\.\d*)?$/, comma: /^-?\d+(?:,\d*)?$/ };
const unitBehind = /^(.*\d.*?)\s?°?\s?(?:deg\.?\s?)?([CF])$/i;
const formsOf = (decimal: string, other: string) => ({
  single: new RegExp(`^[+-]?(\\d+(${decimal}\\d*)?|${decimal}\\d+)(e[+-]?\\d{1,4})?$`, 'i'),
  grouped: new RegExp(`^[+-]?[1-9]\\d{0,2}([${other} '’\\u00a0\\u202f])\\d{3}(\\1\\d{3})*(${decimal}\\d*)?$`),
});
const forms = { point: formsOf('\\.', ','), comma: formsOf(',', '.') };

/** Decimals that are not three can be nothing else. */
const simpleDecimal = /^-?\d+([.,])(?:\d{1,2}|\d{4,})$/;
/** 1.050 and 1,050, which have two readings. */
const twofold = /^[+-]?[1-9]\d{0,2}([.,])\d{3}$/;
const oneMark = /^[+-]?\d*([.,])\d*(e[+-]?\d{1,4})?$/i;
const bothMarks = /^[+-]?\d{1,3}(?:([., '’\u00a0\u202f])\d{3})+([.,])\d+$/;

/** Gathers what the cells of a log say of its marks. */
export class NumberEvidence {
  readonly #decimalAt = new Map<DecimalMark, number>();
  readonly #twofoldAt = new Map<
    DecimalMark,
    { readonly line: number; readonly text: string; thousandsPossible: boolean }
  >();

  /** `isPossible`: whether the cell can hold that number at all. */
  observe(text: string, line: number, isPossible: (value: number) => boolean): void {
    if (!text.includes('.') && !text.includes(',')) return;
    const simple = simpleDecimal.exec(text);
    if (simple !== null) {
      this.#decimal(simple[1] as DecimalMark, line);
      return;
    }
    const cell = unitBehind.exec(text.trim())?.[1]?.trim() ?? text.trim();
    const both = bothMarks.exec(cell);
    if (both !== null && both[1] !== both[2]) {
      this.#decimal(both[2] as DecimalMark, line);
      return;
    }
    const two = twofold.exec(cell);
    if (two !== null) {
      const mark = two[1] as DecimalMark;
      const found = this.#twofoldAt.get(mark) ?? { line, text: cell, thousandsPossible: false };
      found.thousandsPossible ||= isPossible(Number(cell.replace(mark, '')));
      this.#twofoldAt.set(mark, found);
      return;
    }
    const one = oneMark.exec(cell);
    if (one !== null) this.#decimal(one[1] as DecimalMark, line);
  }

  /** The mark; or none where nothing depends on it; or what has to be asked. */
  decide(): DecimalMark | undefined | LogProblem {
    const [first, second] = [...this.#decimalAt];
    if (first !== undefined && second !== undefined) {
      return {
        line: second[1],
        message: `decimals are parted by "${second[0]}" here and by "${first[0]}" on line ${first[1]}; say which is the decimal mark`,
        question: { asks: 'decimal', choices: decimalMarks },
      };
    }
    if (first !== undefined) return first[0];
    const open = [...this.#twofoldAt];
    const [only] = open;
    if (only === undefined) return undefined;
    // As thousands every one of them would be hotter than any thermocouple can be.
    if (open.length === 1 && !only[1].thousandsPossible) return only[0];
    const { line, text } = open.find(([, each]) => each.thousandsPossible)?.[1] ?? only[1];
    return {
      line,
      message: `"${text}" can be a number with three decimals or one with a mark for thousands; say which is the decimal mark`,
      question: { asks: 'decimal', choices: decimalMarks },
    };
  }

  #decimal(mark: DecimalMark, line: number): void {
    if (!this.#decimalAt.has(mark)) this.#decimalAt.set(mark, line);
  }
}
