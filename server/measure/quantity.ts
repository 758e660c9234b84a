/**
 * Quantities of measuring, each a type of its own so that one cannot be handed in for another.
 *
 * The judge works on integers only (thousandths of a degree, milliseconds), so that a verdict is the
 * same to the bit on every machine. Degrees Celsius as decimals live at the edges: files, screens.
 */

declare const unit: unique symbol;
type Unit<Name extends string> = number & { readonly [unit]: Name };

/** A temperature in thousandths of a degree Celsius, integer. What the judge compares. */
export type MilliCelsius = Unit<'MilliCelsius'>;
/** A difference of two temperatures in thousandths of a kelvin, integer. */
export type Millikelvin = Unit<'Millikelvin'>;
/** A thermocouple voltage in tenths of a microvolt, integer: the finest step a board sends. */
export type DeciMicrovolt = Unit<'DeciMicrovolt'>;
/** Energy of an arc for each length of weld in joules per metre, integer: 1 kJ/mm is a million of them. */
export type JoulesPerMetre = Unit<'JoulesPerMetre'>;
/** A point on the joint's time line: integer milliseconds since 1970-01-01T00:00:00Z. */
export type Instant = Unit<'Instant'>;
/** A duration in integer milliseconds. */
export type Milliseconds = Unit<'Milliseconds'>;

export const milliseconds = (value: number): Milliseconds => Math.round(value) as Milliseconds;
export const seconds = (value: number): Milliseconds => milliseconds(value * 1000);
export const minutes = (value: number): Milliseconds => milliseconds(value * 60_000);
export const instant = (value: number): Instant => Math.round(value) as Instant;

/** Degrees Celsius, decimal, to the judge's integer; halves round away from the decimal's own error. */
export const milliCelsius = (celsius: number): MilliCelsius => Math.round(celsius * 1000) as MilliCelsius;
/** A difference in kelvin, decimal, to the judge's integer. */
export const millikelvin = (kelvin: number): Millikelvin => Math.round(kelvin * 1000) as Millikelvin;

export const joulesPerMetre = (kilojoulesPerMillimetre: number): JoulesPerMetre =>
  Math.round(kilojoulesPerMillimetre * 1e6) as JoulesPerMetre;
export const kilojoulesPerMillimetre = (value: JoulesPerMetre): number => value / 1e6;

/** The difference a - b. */
export const difference = (a: MilliCelsius, b: MilliCelsius): Millikelvin => (a - b) as Millikelvin;
export const elapsed = (from: Instant, to: Instant): Milliseconds => (to - from) as Milliseconds;
export const after = (from: Instant, duration: number): Instant => (from + duration) as Instant;
