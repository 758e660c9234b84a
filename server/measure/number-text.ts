/**
 * A number that a person or an instrument wrote. One place reads it, so that an imported value and its
 * later recomputation agree. It never guesses: text that is not plainly one number is not a number.
 */

export type NumberText =
  | { readonly kind: 'number'; readonly value: number }
  /** Empty, a dash, or a word that stands for "no value". */
  | { readonly kind: 'none' }
  | { readonly kind: 'not a number' };

const none = new Set(['', '-', '--', '---', 'nan', 'null', 'n/a', 'na']);
const decimal = /^[+-]?(\d+([.,]\d*)?|[.,]\d+)(e[+-]?\d{1,4})?$/i;

/**
 * Reads a decimal number with a point or a comma. A thousands separator is refused, since "1.234" and
 * "1,234" would then each have two meanings: a single point or comma is always the decimal sign.
 */
export const readNumber = (text: string): NumberText => {
  const trimmed = text.trim().replace('\u2212', '-');
  if (none.has(trimmed.toLowerCase())) return { kind: 'none' };
  if (!decimal.test(trimmed)) return { kind: 'not a number' };
  // A number too large to hold is still a number, and out of every range.
  return { kind: 'number', value: Number(trimmed.replace(',', '.')) };
};
