/**
 * A quantity as it is typed in the units of the job, and as the joint holds it. What was typed stays as text;
 * the joint gets the converted number without the dust of binary fractions, so that 1.5 in is 38.1 mm and not
 * a hair less, which a band of a table would notice.
 */
import { type NumberText, readNumber } from '../../../server/measure/number-text.ts';
import * as units from '../../../server/measure/units.ts';

/** Units of the job as the form keeps them; empty where nobody has stated them, and that reads as metric. */
export type DraftUnits = '' | units.UnitSystem;
export type QuantityKind = 'length' | 'temperature' | 'difference' | 'heat input' | 'speed' | 'strength';

interface Way {
  readonly metric: string;
  readonly inch: string;
  readonly toInch: (value: number) => number;
  readonly fromInch: (value: number) => number;
}

const ways: Readonly<Record<QuantityKind, Way>> = {
  length: { metric: 'mm', inch: 'in', toInch: units.toInches, fromInch: units.fromInches },
  temperature: { metric: '°C', inch: '°F', toInch: units.toFahrenheit, fromInch: units.fromFahrenheit },
  difference: {
    metric: 'K',
    inch: '°F',
    toInch: units.differenceToFahrenheit,
    fromInch: units.differenceFromFahrenheit,
  },
  'heat input': {
    metric: 'kJ/mm',
    inch: 'kJ/in',
    toInch: units.toKilojoulesPerInch,
    fromInch: units.fromKilojoulesPerInch,
  },
  speed: {
    metric: 'mm/s',
    inch: 'in/min',
    toInch: (value) => units.toInches(value) * 60,
    fromInch: (value) => units.fromInches(value) / 60,
  },
  strength: { metric: 'MPa', inch: 'ksi', toInch: units.toKsi, fromInch: units.fromKsi },
};

export const unitOf = (kind: QuantityKind, system: DraftUnits): string =>
  system === 'inch' ? ways[kind].inch : ways[kind].metric;

/** The number as the joint holds it. Lengths in inches may be written with a fraction: "1 1/2", "3/4". */
export const readQuantity = (text: string, kind: QuantityKind, system: DraftUnits): NumberText => {
  const read = system === 'inch' && kind === 'length' ? readInches(text) : readNumber(text);
  return read.kind === 'number' && system === 'inch'
    ? { kind: 'number', value: settled(ways[kind].fromInch(read.value)) }
    : read;
};

/** The shortest text that is read again as exactly this number. */
export const quantityText = (value: number | undefined, kind: QuantityKind, system: DraftUnits): string => {
  if (value === undefined) return '';
  if (system !== 'inch') return String(value);
  return shortest(ways[kind].toInch(value), 12, (text) => {
    const back = readQuantity(text, kind, 'inch');
    return back.kind === 'number' && back.value === value;
  });
};

/**
 * The text in the other system, as short as it may be and so that turning back gives the number that was typed.
 * Within a fifth of a millionth: two numbers of six figures lie further apart than that. What is no number stays as
 * it is.
 */
export const converted = (text: string, kind: QuantityKind, from: DraftUnits, to: DraftUnits): string => {
  if ((from === 'inch') === (to === 'inch')) return text;
  const read = kind === 'length' && from === 'inch' ? readInches(text) : readNumber(text);
  if (read.kind !== 'number') return text;
  const { toInch, fromInch } = ways[kind];
  const [there, back] = to === 'inch' ? [toInch, fromInch] : [fromInch, toInch];
  const decimals = decimalsOf(text);
  const metric = (typed: number, system: DraftUnits): number => (system === 'inch' ? fromInch(typed) : typed);
  const meant = metric(read.value, from);
  return shortest(there(read.value), 10, (shown) => {
    // The same comparison both ways, in metric, so that what is near on the way there is near on the way back.
    const means = metric(Number(shown), to);
    const near = Math.abs(means - meant) <= 2e-7 * Math.max(0.1, Math.abs(means), Math.abs(meant));
    return near && (decimals === undefined || Number(back(Number(shown)).toFixed(decimals)) === read.value);
  });
};

/** Ten decimals: far below what can be measured, far above the error of one multiplication. */
const settled = (value: number): number => Number(value.toFixed(10));

const shortest = (value: number, decimalsMost: number, fits: (text: string) => boolean): string => {
  for (let decimals = 0; decimals < decimalsMost; decimals += 1) {
    const text = plain(value, decimals);
    if (fits(text)) return text;
  }
  return plain(value, decimalsMost);
};

const plain = (value: number, decimals: number): string => String(Number(value.toFixed(decimals)));

/** Undefined for a fraction, which has no last decimal to turn back to. */
const decimalsOf = (text: string): number | undefined => {
  const found = /^\s*[-+\u2212]?\d*(?:[.,](\d*))?\s*$/.exec(text);
  return found === null ? undefined : (found[1] ?? '').length;
};

const readInches = (text: string): NumberText => {
  const fraction = /^\s*(?:(\d+)[\s-]+)?(\d+)\s*\/\s*(\d+)\s*"?\s*$/.exec(text);
  if (fraction === null) return readNumber(text.replace(/"\s*$/, ''));
  const [, whole = '0', over = '0', under = '0'] = fraction;
  const value = Number(whole) + Number(over) / Number(under);
  return Number.isFinite(value) ? { kind: 'number', value } : { kind: 'not a number' };
};
