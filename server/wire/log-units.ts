/** The unit that stands with a column: in its header, in brackets or behind it, or in a row below. */

/** Degrees Celsius or Fahrenheit, kelvin; 'K?' is kelvin or a thermocouple of type K; 'other' is certainly no temperature. */
export type StatedUnit = 'C' | 'F' | 'K' | 'K?' | 'other';
export const temperatureUnits = ['C', 'F', 'K'] as const;
export type TemperatureUnit = (typeof temperatureUnits)[number];

/** Undefined: says nothing of a unit. A bracket may hold anything, so only what is certainly a unit counts as one. */
export const statedUnit = (text: string): StatedUnit | undefined => {
  const word = text.replaceAll(/[()[\]]/g, '').trim();
  if (/^(°|º|deg\.?|degrees?|grad)?\s*(c|celsius)$/i.test(word) || word === '℃') return 'C';
  if (/^(°|º|deg\.?|degrees?|grad)?\s*(f|fahrenheit)$/i.test(word) || word === '℉') return 'F';
  if (/^(kelvin|(°|º|deg\.?|degrees?)\s*k)$/i.test(word)) return 'K';
  if (/^k$/i.test(word)) return 'K?';
  return /^(r|rankine|mv|v|ma|uv|µv|μv|ohm|Ω|%|bar|kw|kw\/m2)$/i.test(word) ? 'other' : undefined;
};

export const toCelsius = (value: number, unit: TemperatureUnit): number =>
  unit === 'C' ? value : unit === 'F' ? ((value - 32) * 5) / 9 : value - 273.15;

export const unitName: Readonly<Record<TemperatureUnit, string>> = {
  C: 'degrees Celsius',
  F: 'degrees Fahrenheit',
  K: 'kelvin',
};

const bracketed = /\s*[([]\s*([^()[\]]*?)\s*[)\]]\s*$/;
const behind = /(?:\s*\/\s*|[\s_,]+)((?:°|º|deg\.?)\s?[cf]|℃|℉)\s*$/i;
const timed = /^(.*(?:time|elapsed|zeit|temps|heure|dauer).*?)[\s/_,]+(ms|s|sec|min|h)\s*$/i;

/** The header without the unit that it ends in. */
export const withoutUnit = (name: string): string => {
  const cut = bracketed.exec(name) ?? behind.exec(name);
  if (cut !== null) return name.slice(0, cut.index);
  return timed.exec(name)?.[1] ?? name;
};

export const unitIn = (name: string): string | undefined =>
  bracketed.exec(name)?.[1] ?? behind.exec(name)?.[1] ?? timed.exec(name)?.[2];
