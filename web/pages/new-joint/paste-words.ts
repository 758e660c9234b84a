/** What the words of a certificate mean: symbols and names of elements, and the scale in which a column is printed. */
import { type Element, elements } from '../../../server/weld/composition.ts';

/** The number printed is the percentage times the divisor. */
export interface Scale {
  readonly divisor: number;
  readonly words: string;
}

export const percent: Scale = { divisor: 1, words: '%' };

const names: Readonly<Record<string, Element>> = {
  carbon: 'C',
  silicon: 'Si',
  manganese: 'Mn',
  phosphorus: 'P',
  sulphur: 'S',
  sulfur: 'S',
  chromium: 'Cr',
  molybdenum: 'Mo',
  nickel: 'Ni',
  copper: 'Cu',
  vanadium: 'V',
  niobium: 'Nb',
  columbium: 'Nb',
  titanium: 'Ti',
  boron: 'B',
  nitrogen: 'N',
  aluminium: 'Al',
  aluminum: 'Al',
};

/** Printed all in capitals on many papers; Cb is the older symbol of niobium. */
const symbols: ReadonlyMap<string, Element> = new Map([
  ...elements.map((element): [string, Element] => [element.toUpperCase(), element]),
  ['CB', 'Nb'],
  ['N2', 'N'],
]);

/** The element that a word names, or undefined. A word in small letters is a word, not a symbol. */
export const elementOf = (word: string): Element | undefined => {
  if (/^Al[\s.\-(]*(t|tot|total)[.)]*$/i.test(word)) return 'Al';
  return (/^[A-Z]/.test(word) ? symbols.get(word.toUpperCase()) : undefined) ?? names[word.toLowerCase()];
};

const equivalents = /^(ce|cev|ceq|cet|cen|pcm|iiw|ceiiw)$/i;
const otherElements = /^(W|Co|Sn|As|Sb|Zr|Ca|Ta|Pb|Te|Se|Bi|Zn|Mg|H|O|Ce|La)$/;

/** Why a word beside a number is left aside. */
export const asideBecause = (word: string): string => {
  if (/^Al[\s.\-(]*(s|sol|soluble)[.)]*$/i.test(word)) return 'soluble aluminium is not the whole of it';
  if (equivalents.test(word)) return 'a carbon equivalent is worked out here from the elements';
  if (otherElements.test(word) || /^CO$/.test(word)) return 'no formula here asks for this element';
  return 'not understood';
};

const powers: Readonly<Record<string, string>> = { '²': '2', '³': '3', '⁴': '4' };

/** "ppm", "x100", "10^-3 %", "[%]"; undefined where the words are no scale. */
export const scaleOf = (text: string): Scale | undefined => {
  const words = text.replace(/[[\]()]/g, ' ').trim();
  if (/^(ppmw?|mg\/kg|[µμu]g\/g)$/i.test(words)) return { divisor: 10_000, words: 'ppm' };
  if (/^(wt\.?|mass|m)?\s?-?\s?%(\s?m\/m)?$/i.test(words)) return percent;
  const factor = words
    .replace(/^%|%$/g, '')
    .replace(/[²³⁴]/g, (power) => powers[power] ?? power)
    .trim();
  const times = /^[x×*·]\s?(10{1,4})$/i.exec(factor) ?? /^1?\s?\/\s?(10{2,4})$/.exec(factor);
  if (times !== null) return multiple(Number(times[1]));
  const power = /^(?:[x×*·]\s?)?10\s?(?:\^\s?)?([-\u2212⁻]?)\s?([2-4])$/i.exec(factor);
  // 10 to the 3 and 10 to the minus 3 say the same of a column: a thousandth of a percent is printed as 1.
  return power === null ? undefined : multiple(10 ** Number(power[2]));
};

const multiple = (divisor: number): Scale => ({ divisor, words: `× ${divisor}` });
