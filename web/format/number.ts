/** A plain number of a working, with no more decimals than asked and a true minus sign. Temperatures of a joint are server/wording/temperature.ts. */
export const numberText = (value: number, decimalsMost: number): string => {
  const fixed = value.toFixed(decimalsMost);
  const text = fixed.includes('.') ? fixed.replace(/\.?0+$/, '') : fixed;
  return text === '-0' ? '0' : text.replace('-', '\u2212');
};
