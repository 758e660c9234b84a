/**
 * A temperature becomes text here and nowhere else. Whole degrees as a rule; one decimal within 1 K of a
 * limit; and never so rounded that it seems to stand on the other side of the limit or on it: 149.96
 * against 150 reads 149.9, not 150.0.
 */
import type { MilliCelsius, Millikelvin } from '../measure/quantity.ts';

export interface Beside<Quantity extends number> {
  /** The limit, or limits, that the value is read against. */
  readonly limit?: Quantity | readonly Quantity[] | undefined;
}

/** "128 °C". */
export const temperatureText = (value: MilliCelsius, beside: Beside<MilliCelsius> = {}): string =>
  `${figure(value, listed(beside.limit))} °C`;

/** "128", where the unit stands elsewhere. */
export const temperatureFigure = (value: MilliCelsius, beside: Beside<MilliCelsius> = {}): string =>
  figure(value, listed(beside.limit));

/** "12 K": a difference of two temperatures. */
export const differenceText = (value: Millikelvin, beside: Beside<Millikelvin> = {}): string =>
  `${figure(value, listed(beside.limit))} K`;

/** A limit as it was stated, without rounding: "150 °C", "148.9 °C". */
export const limitText = (limit: MilliCelsius): string => `${exact(limit)} °C`;
export const differenceLimitText = (limit: Millikelvin): string => `${exact(limit)} K`;

/** "128 °C of 150 °C": the value beside the limit that it has to reach. */
export const ofLimitText = (value: MilliCelsius, limit: MilliCelsius | undefined): string =>
  limit === undefined ? temperatureText(value) : `${temperatureText(value, { limit })} of ${limitText(limit)}`;

/** "268 °C, at most 250 °C": the value beside the limit that it must not pass. */
export const atMostText = (value: MilliCelsius, limit: MilliCelsius | undefined): string =>
  limit === undefined ? temperatureText(value) : `${temperatureText(value, { limit })}, at most ${limitText(limit)}`;

/** "rising 3.2 K/min". Below 0.1 K/min a change is not worth a word. */
export const trendText = (perMinute: Millikelvin): string => {
  if (Math.abs(perMinute) < 100) return 'steady';
  const size = Math.abs(perMinute);
  const rate = size < 10_000 ? tenths(Math.round(size / 100)) : `${Math.round(size / 1000)}`;
  return `${perMinute > 0 ? 'rising' : 'falling'} ${rate} K/min`;
};

const near = 1000;

const figure = (value: number, limits: readonly number[]): string => {
  if (limits.some((limit) => limit === value)) return exact(value, 1);
  if (limits.every((limit) => Math.abs(value - limit) > near)) return signed(Math.round(value / 1000), 0);
  const candidates = [Math.round(value / 100), Math.floor(value / 100), Math.ceil(value / 100)];
  const shown = candidates.find((tenth) => limits.every((limit) => sameSide(tenth * 100, value, limit)));
  return shown === undefined ? exact(value) : signed(shown, 1);
};

const sameSide = (shown: number, value: number, limit: number): boolean =>
  value < limit ? shown < limit : shown > limit;

const listed = <Quantity extends number>(limit: Quantity | readonly Quantity[] | undefined): readonly number[] => {
  if (limit === undefined) return [];
  return typeof limit === 'number' ? [limit] : limit;
};

/** Thousandths as they are, with no more decimals than they need and no fewer than asked. */
const exact = (thousandths: number, decimalsLeast = 0): string => {
  for (let decimals = decimalsLeast; decimals < 3; decimals += 1) {
    const step = 10 ** (3 - decimals);
    if (thousandths % step === 0) return signed(thousandths / step, decimals);
  }
  return signed(thousandths, 3);
};

const tenths = (value: number): string => signed(value, 1);

/** An integer counted in the last of the decimals, with a true minus sign and no minus before zero. */
const signed = (value: number, decimals: number): string => {
  const size = Math.abs(value)
    .toString()
    .padStart(decimals + 1, '0');
  const text = decimals === 0 ? size : `${size.slice(0, -decimals)}.${size.slice(-decimals)}`;
  return value < 0 ? `\u2212${text}` : text;
};
