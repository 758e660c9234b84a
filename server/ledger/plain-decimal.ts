/**
 * A number as a plain decimal without exponent: the shortest one that reads back as the same number
 * (the digits of ECMAScript Number::toString, which are the same on every machine).
 */

/** For a finite number. */
export const plainDecimal = (value: number): string => {
  const text = String(value === 0 ? 0 : value);
  const parts = /^(-?)(\d+)(?:\.(\d+))?e([+-]\d+)$/.exec(text);
  if (parts === null) return text;
  const [, sign = '', whole = '', fraction = '', exponentText = '0'] = parts;
  const digits = whole + fraction;
  const point = whole.length + Number(exponentText);
  if (point <= 0) return `${sign}0.${'0'.repeat(-point)}${digits}`;
  // ECMAScript writes an exponent above 1e21 only, and a double has at most 17 digits: no fraction is left.
  return `${sign}${digits.padEnd(point, '0')}`;
};

/** Undefined unless the text is exactly what plainDecimal writes for a number that is no safe integer. */
export const readPlainDecimal = (text: string): number | undefined => {
  if (text.length > 400 || !/^-?\d+(\.\d+)?$/.test(text)) return undefined;
  const value = Number(text);
  if (Number.isSafeInteger(value) || !Number.isFinite(value)) return undefined;
  return plainDecimal(value) === text ? value : undefined;
};

/**
 * The value with every fraction rounded to nine decimals. For conclusions, which are compared and never
 * folded: the last binary digits of a logarithm may differ between machines, and say nothing.
 */
export const settle = (value: unknown): unknown => {
  if (typeof value === 'number') {
    return Number.isInteger(value) || Math.abs(value) >= 1e15 ? value : Number(value.toFixed(9)) + 0;
  }
  if (Array.isArray(value)) return value.map(settle);
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(Object.entries(value).map(([key, member]) => [key, settle(member)]));
};
