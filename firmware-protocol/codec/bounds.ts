/**
 * Every bound that PROTOCOL.md states, in one place for the codec. Both sides refuse what lies outside;
 * the numbers are part of the wire and change only with its revision.
 */
export const revision = 1;

export const bounds = {
  /** Characters of a line without its LF. */
  lineLengthMaximum: 512,
  channelsMaximum: 16,
  inputsMaximum: 16,
  /** Characters of a board identity or a firmware name. */
  identityLengthMaximum: 32,
  periodMilliseconds: { lowest: 100, highest: 60_000 },
  /** About 31 years; a board extends its counter before it runs over. */
  ticks: { lowest: 0, highest: 999_999_999_999 },
  /** Boot number and sequence number. */
  counter: { lowest: 0, highest: 4_294_967_295 },
  /** Revision, number of a command, number of lines kept. */
  short: { lowest: 0, highest: 65_535 },
  /** ±100 mV: more than any thermocouple of IEC 60584-1 gives. */
  deciMicrovolts: { lowest: -1_000_000, highest: 1_000_000 },
  coldJunctionCentiCelsius: { lowest: -5_500, highest: 15_000 },
  centiCelsius: { lowest: -27_315, highest: 250_000 },
} as const;

export interface Span {
  readonly lowest: number;
  readonly highest: number;
}
