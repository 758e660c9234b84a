/**
 * How uncertain a reading is, by what it came through (GUM, JCGM 100; from memory): a limit plus or minus a is taken
 * as rectangular, a / root 3; a certificate's U as U / k; the root of the sum of squares is the standard uncertainty,
 * and twice that is stated. What is not known of a chain is taken at its named worst and says so; nothing is zero
 * because nobody entered it. Noise, ageing of the wire and heat that the part draws unevenly are not in it.
 */
import { type HandKind, type Instrument, isHandKind } from '../weld/instrument.ts';
import { noExtension } from '../weld/instrument-checks.ts';
import type { Probe } from '../weld/probe.ts';
import type { Chain } from './chain.ts';
import { correctionAt } from './correction.ts';
import { extensionTolerance } from './extension-tolerance.ts';
import { slopeAt } from './thermocouple.ts';
import { type WireClass, widestWireTolerance, wireTolerance } from './wire-tolerance.ts';

export type BudgetSource =
  | 'wire'
  | 'extension'
  | 'cold junction'
  | 'converter'
  | 'calibration'
  | 'attachment'
  | 'instrument'
  | 'emissivity';

export interface BudgetTerm {
  readonly source: BudgetSource;
  /** Plus or minus, as stated; of a calibration its standard uncertainty. */
  readonly statedKelvin: number;
  readonly standardKelvin: number;
  /** What it rests on, by name. */
  readonly basis: string;
  /** False where nobody entered it, so that it stands at its worst. */
  readonly isKnown: boolean;
}

export interface Budget {
  readonly terms: readonly BudgetTerm[];
  readonly standardKelvin: number;
  /** Twice the standard uncertainty, k = 2: about 95 % of readings, if they spread normally. */
  readonly expandedKelvin: number;
}

/** What is taken where nothing is entered, plus or minus in kelvin. */
const worst = {
  /** Data sheet of a common converter part for type K (MAX31855: 2 K; verified), and of its cold junction (from memory). */
  converterKelvin: 2,
  coldJunctionKelvin: 2,
  /** A clamped or magnet-held tip is off by several kelvin (from memory); own choice of the figure. */
  attachmentKelvin: 5,
  /** Held on by hand. Contact: own choice. Crayon: own choice. Pyrometer, without its emissivity: own choice. */
  byHandKelvin: { 'contact thermometer': 5, crayon: 5, pyrometer: 5 },
  /** A pyrometer whose setting nobody entered: 20 K at 150 °C for an emissivity of 0.8 taken as 0.95 (computed). */
  emissivityNotEnteredKelvin: 20,
  /** How far the setting can be off: oxidised and rolled steel lie from about 0.7 to 0.9, bright steel far lower. Own choice. */
  emissivityOff: 0.1,
} as const;

/** Radiation that a pyrometer for these temperatures sees, metres; and the second radiation constant, metre kelvin. */
const pyrometerWavelength = 10e-6;
const secondRadiation = 0.014388;

/** Of a thermocouple reading at the temperature in degrees Celsius. */
export function budgetOf(probe: Probe, chain: Chain, celsius: number): Budget {
  return summed([
    ...wireTerms(probe, chain, celsius),
    ...extensionTerms(probe, chain, celsius),
    ...converterTerms(probe, chain, celsius),
    ...attachmentTerms(probe),
  ]);
}

/** How a reading by hand was taken, as far as it was entered. */
export interface ByHand {
  readonly kind?: HandKind | undefined;
  readonly emissivity?: number | undefined;
}

/** Of a reading by hand; where neither register nor entry names its kind, the worst of all kinds counts. */
export function handBudget(
  instrument: Instrument | undefined,
  celsius: number,
  { kind, emissivity }: ByHand = {},
): Budget {
  const known = calibrated(instrument, celsius);
  const stated = instrument?.maximumErrorKelvin;
  const registered = instrument !== undefined && isHandKind(instrument.kind) ? instrument.kind : undefined;
  const is = kind ?? registered;
  if (is === undefined && stated === undefined && !known.replaces)
    return summed([
      ...known.terms,
      rectangular('instrument', worst.emissivityNotEnteredKelvin, 'nothing entered', false),
    ]);
  const term: BudgetTerm =
    stated === undefined
      ? rectangular('instrument', worst.byHandKelvin[is ?? 'crayon'], 'nothing entered', false)
      : rectangular('instrument', stated, 'its maker', true);
  return summed([
    ...(known.replaces ? known.terms : [...known.terms, term]),
    ...(is === 'pyrometer' ? [emissivityTerm(celsius, emissivity)] : []),
  ]);
}

/**
 * What a wrong emissivity does to a pyrometer at 10 micrometres, by the law of Wien: wavelength x T x T / 0.014388 kelvin
 * times the share by which it is off, about 1.2 K for each percent at 150 °C. A certificate is made on a black body and
 * says nothing of it.
 */
function emissivityTerm(celsius: number, set: number | undefined): BudgetTerm {
  if (set === undefined) return rectangular('emissivity', worst.emissivityNotEnteredKelvin, 'nothing entered', false);
  const kelvin = celsius + 273.15;
  const off = ((pyrometerWavelength * kelvin * kelvin) / secondRadiation) * (worst.emissivityOff / set);
  return rectangular('emissivity', off, `${set} set, off by ${worst.emissivityOff} at most`, false);
}

function wireTerms({ thermocouple }: Probe, { wire }: Chain, celsius: number): BudgetTerm[] {
  const known = calibrated(wire, celsius);
  if (known.replaces) return known.terms;
  const named = wire?.toleranceClass as WireClass | undefined;
  const stated = named === undefined ? undefined : wireTolerance(thermocouple, named, celsius);
  if (stated !== undefined) return [...known.terms, rectangular('wire', stated, named!, true)];
  const widest = widestWireTolerance(thermocouple, celsius);
  return [...known.terms, rectangular('wire', widest.kelvin, widest.named, false)];
}

function extensionTerms({ thermocouple }: Probe, { extension }: Chain, celsius: number): BudgetTerm[] {
  if (extension === noExtension) return [];
  const known = calibrated(extension, celsius);
  if (known.replaces) return known.terms;
  const grade = extension?.toleranceClass === undefined ? undefined : extension.toleranceClass.endsWith('1') ? 1 : 2;
  const stated = grade === undefined ? undefined : extensionTolerance(thermocouple, grade, celsius);
  if (stated !== undefined) return [...known.terms, rectangular('extension', stated, extension!.toleranceClass!, true)];
  const widest = extensionTolerance(thermocouple, 2, celsius);
  return widest === undefined
    ? known.terms
    : [...known.terms, rectangular('extension', widest, 'IEC 60584-3 class 2', false)];
}

function converterTerms({ thermocouple }: Probe, { converter }: Chain, celsius: number): BudgetTerm[] {
  const known = calibrated(converter, celsius);
  if (known.replaces) return known.terms;
  const { maximumErrorKelvin: error, coldJunctionErrorKelvin: cold } = converter ?? {};
  const junction = (cold ?? worst.coldJunctionKelvin) * coldJunctionWeight(thermocouple, celsius);
  return [
    ...known.terms,
    rectangular(
      'converter',
      error ?? worst.converterKelvin,
      error === undefined ? 'nothing entered' : 'its maker',
      error !== undefined,
    ),
    rectangular('cold junction', junction, cold === undefined ? 'nothing entered' : 'its maker', cold !== undefined),
  ];
}

/** The air is not touched by a tip, so that nothing is fixed to anything there. */
function attachmentTerms({ use, attachmentErrorKelvin: stated }: Probe): BudgetTerm[] {
  if (use === 'ambient') return [];
  return [
    stated === undefined
      ? rectangular('attachment', worst.attachmentKelvin, 'nothing entered', false)
      : rectangular('attachment', stated, 'as entered', true),
  ];
}

/** A calibration that speaks at the temperature stands in place of the tolerance; outside its points it stands beside it. */
function calibrated(
  instrument: Instrument | typeof noExtension | undefined,
  celsius: number,
): { terms: BudgetTerm[]; replaces: boolean } {
  if (instrument === undefined || instrument === noExtension) return { terms: [], replaces: false };
  const there = correctionAt(instrument.corrections ?? [], celsius);
  if (there === undefined) return { terms: [], replaces: false };
  const { standardKelvin } = there;
  const basis = instrument.certificate ?? `calibration of ${instrument.id}`;
  return {
    terms: [{ source: 'calibration', statedKelvin: standardKelvin, standardKelvin, basis, isKnown: true }],
    replaces: there.isInside,
  };
}

/** What one kelvin at the cold junction does to the reading: slope there, at 25 °C, over slope at the tip. */
function coldJunctionWeight(type: Probe['thermocouple'], celsius: number): number {
  const there = slopeAt(type, 25);
  const tip = slopeAt(type, celsius);
  return there === undefined || tip === undefined || tip <= 0 || there <= 0 ? 1 : there / tip;
}

const rectangular = (source: BudgetSource, stated: number, basis: string, isKnown: boolean): BudgetTerm => ({
  source,
  statedKelvin: stated,
  standardKelvin: stated / Math.sqrt(3),
  basis,
  isKnown,
});

function summed(terms: readonly BudgetTerm[]): Budget {
  const standardKelvin = Math.sqrt(terms.reduce((sum, each) => sum + each.standardKelvin * each.standardKelvin, 0));
  return { terms, standardKelvin, expandedKelvin: 2 * standardKelvin };
}
