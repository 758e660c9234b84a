/**
 * One number of a certificate, turned into percent. What can be read in two ways is told and not guessed: "1,234"
 * is 1.234 on one paper and 1234 on another, and only other numbers of the same paper can say which.
 */
import type { ContentDraft } from './draft.ts';
import { percent, type Scale } from './paste-words.ts';

/** Decimal signs that the text uses where no other reading is possible, as in "0,35". */
export type DecimalSigns = ReadonlySet<string>;

export type ReadValue =
  | { readonly kind: 'content'; readonly content: ContentDraft; readonly percent: number }
  | { readonly kind: 'not reported'; readonly content: ContentDraft }
  | { readonly kind: 'refused'; readonly why: string };

export const decimalSigns = (text: string): DecimalSigns => {
  const signs = new Set<string>();
  for (const [, whole = '', sign = '', after = ''] of text.matchAll(/(?<![\d.,])(\d*)([.,])(\d+)(?![\d.,]*\d)/g)) {
    if (after.length !== 3 || /^0?$/.test(whole) || whole.length > 3) signs.add(sign);
  }
  return signs;
};

/** `scale`: what the head of the column says; the value's own unit must agree with it. */
export const readValue = (text: string, scale: Scale | undefined, signs: DecimalSigns): ReadValue => {
  if (notReported.test(text.trim())) return { kind: 'not reported', content: { how: 'not reported', text: '' } };
  const found = whole.exec(text.trim());
  if (found === null) return { kind: 'refused', why: 'not plainly one number' };
  const [, before, number = '', after, unit] = found;
  const own = unit === undefined ? undefined : /%/.test(unit) ? percent : { divisor: 10_000, words: 'ppm' };
  if (own !== undefined && scale !== undefined && own.divisor !== scale.divisor)
    return { kind: 'refused', why: `the head of the column says ${scale.words}, the value ${own.words}` };
  const doubt = doubtOf(number, signs);
  if (doubt !== undefined) return { kind: 'refused', why: doubt };
  const { divisor } = own ?? scale ?? percent;
  const value = Number(number.replace(',', '.'));
  const inPercent = Number((value / divisor).toPrecision(12));
  return {
    kind: 'content',
    content: {
      how: before === undefined && after === undefined ? 'reported' : 'at most',
      text: divisor === 1 ? number : decimal(inPercent),
    },
    percent: inPercent,
  };
};

const notReported = /^(n\.?\s?r\.?|n\.?\/?a\.?|not reported|not stated|-{1,3}|[\u2013\u2014])$/i;
const whole =
  /^(<=?|\u2264|max\.?|at most)?\s*(\d+(?:[.,]\d+)*|[.,]\d+)\s*(max\.?)?\s*((?:wt\.?|mass|m)?\s?-?\s?%|ppmw?|mg\/kg|[µμu]g\/g)?$/i;

const doubtOf = (number: string, signs: DecimalSigns): string | undefined => {
  const used = [...number.matchAll(/[.,]/g)].map(([sign]) => sign);
  if (used.length > 1) return 'more than one point or comma: write it with one decimal sign and nothing else';
  const [sign] = used;
  if (sign === undefined || !/^[1-9]\d{0,2}[.,]\d{3}$/.test(number)) return undefined;
  const other = sign === ',' ? '.' : ',';
  if (signs.has(sign) && !signs.has(other)) return undefined;
  if (sign === '.' && !signs.has(',')) return undefined;
  const [before, after] = number.split(sign);
  return `can be ${before}.${after} or ${before}${after}: type it at the element, with a point`;
};

/** Without the exponent that JavaScript gives to small numbers. */
const decimal = (value: number): string =>
  String(value).includes('e') ? value.toFixed(12).replace(/0+$/, '') : String(value);
