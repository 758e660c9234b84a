/**
 * A temperature becomes text here and nowhere else, in the units of the job. Whole degrees as a rule; one
 * decimal within 1 K of a limit; and never so rounded that it seems to stand on the other side of the limit or
 * on it: 149.96 against 150 reads 149.9, not 150.0. A difference converts as a difference: 10 K are 18 °F.
 */
import type { MilliCelsius, Millikelvin } from '../measure/quantity.ts';
import { differenceToFahrenheit, toFahrenheit, type UnitSystem } from '../measure/units.ts';
import type { Bound } from '../weld/hand-reading.ts';

export interface Beside<Quantity extends number> {
  /** The limit, or limits, that the value is read against. */
  readonly limit?: Quantity | readonly Quantity[] | undefined;
  /** For an end of a range, which must not become narrower. Absent: to the nearest. */
  readonly rounded?: Rounded | undefined;
}
type Rounded = 'down' | 'up';

/** "°C" or "°F", where the unit stands apart from its numbers. */
export const degreeUnit = (units: UnitSystem): string => (units === 'inch' ? '°F' : '°C');
/** "K" or "°F", of a difference. */
export const differenceUnit = (units: UnitSystem): string => (units === 'inch' ? '°F' : 'K');

/** "128 °C", "262 °F". */
export const temperatureText = (value: MilliCelsius, units: UnitSystem, beside: Beside<MilliCelsius> = {}): string =>
  `${temperatureFigure(value, units, beside)} ${degreeUnit(units)}`;

/** "128", where the unit stands elsewhere. */
export const temperatureFigure = (value: MilliCelsius, units: UnitSystem, beside: Beside<MilliCelsius> = {}): string =>
  figure(value, listed(beside.limit), scaleOf[units], beside.rounded);

/** "137 to 142 °C": lowest and highest of what is possible, rounded outwards; one figure where both read alike. */
export const boundedText = (
  { low, high }: { readonly low: MilliCelsius; readonly high: MilliCelsius },
  units: UnitSystem,
  { limit }: Pick<Beside<MilliCelsius>, 'limit'> = {},
): string => {
  const least = temperatureFigure(low, units, { limit, rounded: 'down' });
  const most = temperatureFigure(high, units, { limit, rounded: 'up' });
  return low === high || least === most
    ? temperatureText(low, units, { limit })
    : `${least} to ${most} ${degreeUnit(units)}`;
};

/** "12 K", "22 °F": a difference of two temperatures. */
export const differenceText = (value: Millikelvin, units: UnitSystem, beside: Beside<Millikelvin> = {}): string =>
  `${figure(value, listed(beside.limit), differenceScaleOf[units], beside.rounded)} ${differenceUnit(units)}`;

/** A limit as it was stated, without rounding: "150 °C", "148.9 °C", "300 °F". */
export const limitText = (limit: MilliCelsius, units: UnitSystem): string =>
  `${exact(scaleOf[units].limit(limit))} ${degreeUnit(units)}`;
export const differenceLimitText = (limit: Millikelvin, units: UnitSystem): string =>
  `${exact(differenceScaleOf[units].limit(limit))} ${differenceUnit(units)}`;

/** "128 °C of 150 °C": the value beside the limit that it has to reach. */
export const ofLimitText = (
  value: MilliCelsius,
  limit: MilliCelsius | undefined,
  units: UnitSystem,
  rounded?: Rounded,
  bound?: Bound,
): string => {
  const shown =
    bound === undefined ? temperatureText(value, units, { limit, rounded }) : boundText(bound, value, units);
  return limit === undefined ? shown : `${shown} of ${limitText(limit, units)}`;
};

/** "268 °C, at most 250 °C": the value beside the limit that it must not pass. */
export const atMostText = (
  value: MilliCelsius,
  limit: MilliCelsius | undefined,
  units: UnitSystem,
  bound?: Bound,
): string => {
  const shown = bound === undefined ? temperatureText(value, units, { limit }) : boundText(bound, value, units);
  return limit === undefined
    ? shown
    : `${shown}, ${bound === undefined ? 'at most' : 'maximum'} ${limitText(limit, units)}`;
};

/** "at least 150 °C": what a crayon shows. */
export const boundText = (bound: Bound, value: MilliCelsius, units: UnitSystem): string =>
  `${bound} ${limitText(value, units)}`;

/** "rising 3.2 K/min". Below 0.1 K/min a change is not worth a word. */
export const trendText = (perMinute: Millikelvin, units: UnitSystem): string =>
  Math.abs(perMinute) < 100
    ? 'steady'
    : `${perMinute > 0 ? 'rising' : 'falling'} ${rateText(Math.abs(perMinute) as Millikelvin, units)}`;

/** "3.2 K/min". */
export const rateText = (perMinute: Millikelvin, units: UnitSystem): string => {
  const size = differenceScaleOf[units].value(perMinute);
  const rate = Math.abs(size) < 10_000 ? signed(Math.round(size / 100), 1) : `${Math.round(size / 1000)}`;
  return `${rate} ${differenceUnit(units)}/min`;
};

/** From thousandths of a degree Celsius, or of a kelvin, to thousandths of what is shown. */
interface Scale {
  readonly value: (thousandths: number) => number;
  /** A limit was stated with few decimals; what the conversion added behind the second is noise. */
  readonly limit: (thousandths: number) => number;
  /** One kelvin, in thousandths of what is shown. */
  readonly near: number;
}

const same = (value: number): number => value;
const hundredths = (value: number): number => Math.round(value / 10) * 10;
const plainScale: Scale = { value: same, limit: same, near: 1000 };
const fahrenheit = (value: number): number => toFahrenheit(value / 1000) * 1000;
const scaleOf: Readonly<Record<UnitSystem, Scale>> = {
  metric: plainScale,
  inch: {
    value: (value) => Math.round(fahrenheit(value)),
    limit: (value) => hundredths(fahrenheit(value)),
    near: 1800,
  },
};
const differenceScaleOf: Readonly<Record<UnitSystem, Scale>> = {
  metric: plainScale,
  inch: {
    value: (value) => Math.round(differenceToFahrenheit(value)),
    limit: (value) => hundredths(differenceToFahrenheit(value)),
    near: 1800,
  },
};

const roundings = { down: Math.floor, up: Math.ceil } as const;

const figure = (measured: number, limits: readonly number[], scale: Scale, rounded?: Rounded): string => {
  const on = limits.find((limit) => limit === measured);
  if (on !== undefined) return exact(scale.limit(on), 1);
  const value = scale.value(measured);
  const round = rounded === undefined ? Math.round : roundings[rounded];
  const shownLimits = limits.map((limit) => ({ shown: scale.limit(limit), below: measured < limit }));
  if (shownLimits.every(({ shown }) => Math.abs(value - shown) > scale.near)) return signed(round(value / 1000), 0);
  const candidates =
    rounded === undefined
      ? [Math.round(value / 100), Math.floor(value / 100), Math.ceil(value / 100)]
      : [round(value / 100)];
  const tenth = candidates.find((each) =>
    shownLimits.every(({ shown, below }) => (below ? each * 100 < shown : each * 100 > shown)),
  );
  return tenth === undefined ? exact(value) : signed(tenth, 1);
};

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

/** An integer counted in the last of the decimals, with a true minus sign and no minus before zero. */
const signed = (value: number, decimals: number): string => {
  const size = Math.abs(value)
    .toString()
    .padStart(decimals + 1, '0');
  const text = decimals === 0 ? size : `${size.slice(0, -decimals)}.${size.slice(-decimals)}`;
  return value < 0 ? `\u2212${text}` : text;
};

/** Degrees in the units of the job, decimal: for axes, never for judging. */
export const shownDegrees = (thousandths: number, units: UnitSystem): number =>
  units === 'inch' ? toFahrenheit(thousandths / 1000) : thousandths / 1000;
