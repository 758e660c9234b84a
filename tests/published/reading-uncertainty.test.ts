/**
 * Tolerances of wire and cable, and uncertainty budgets.
 * IEC 60584-1:2013 and ASTM E230 (verified on two stored tables each), IEC 60584-3: the kelvin at its stated
 * temperatures (verified on a stored table), microvolts from memory. Budgets at 150 °C: computed from the formula of
 * the GUM (JCGM 100, from memory) with sums made apart from this program.
 */
import { expect, test } from 'vitest';
import { extensionTolerance } from '../../server/reading/extension-tolerance.ts';
import { budgetOf, handBudget } from '../../server/reading/uncertainty.ts';
import { widestWireTolerance, wireTolerance } from '../../server/reading/wire-tolerance.ts';
import type { Instrument } from '../../server/weld/instrument.ts';
import type { Probe } from '../../server/weld/probe.ts';

test.each([
  ['K', 'IEC 60584-1 class 1', 150, 1.5],
  ['K', 'IEC 60584-1 class 1', 375, 1.5],
  ['K', 'IEC 60584-1 class 1', 500, 2],
  ['N', 'IEC 60584-1 class 2', 333, 2.5],
  ['J', 'IEC 60584-1 class 2', 400, 3],
  ['T', 'IEC 60584-1 class 1', 125, 0.5],
  ['T', 'IEC 60584-1 class 2', 200, 1.5],
  ['E', 'IEC 60584-1 class 3', -200, 3],
  ['S', 'IEC 60584-1 class 1', 1200, 1.3],
  ['R', 'IEC 60584-1 class 2', 800, 2],
  ['B', 'IEC 60584-1 class 2', 600, 1.5],
  ['K', 'ASTM E230 standard', 200, 2.2],
  ['K', 'ASTM E230 standard', 400, 3],
  ['E', 'ASTM E230 standard', 400, 2],
  ['T', 'ASTM E230 special', 200, 0.8],
  ['S', 'ASTM E230 special', 1000, 1],
] as const)('type %s of %s at %s °C may be off by %s K', (type, named, celsius, kelvin) => {
  expect(wireTolerance(type, named, celsius)).toBeCloseTo(kelvin, 9);
});

test('a class states nothing outside its range, and a wire of no known class counts as the wider ordinary one', () => {
  expect(wireTolerance('K', 'IEC 60584-1 class 3', 150)).toBeUndefined();
  expect(wireTolerance('T', 'IEC 60584-1 class 1', 360)).toBeUndefined();
  expect(widestWireTolerance('K', 150)).toEqual({ named: 'IEC 60584-1 class 2', kelvin: 2.5 });
  expect(widestWireTolerance('E', 100)).toEqual({ named: 'IEC 60584-1 class 2', kelvin: 2.5 });
});

test.each([
  ['K', 1, 900, 1.5],
  ['K', 2, 900, 2.5],
  ['J', 1, 500, 1.52],
  ['T', 2, 300, 1.03],
  ['E', 1, 500, 1.48],
  ['N', 2, 900, 2.56],
  ['K', 1, 150, 1.49],
  ['T', 1, 150, 0.6],
  ['E', 2, 150, 2.81],
  ['N', 1, 150, 1.91],
] as const)('extension cable of type %s, class %s, tip at %s °C: %s K', (type, grade, celsius, kelvin) => {
  expect(extensionTolerance(type, grade, celsius)).toBeCloseTo(kelvin, 1);
});

const probe = (facts: Partial<Probe> = {}): Probe => ({
  id: 'T1',
  board: 'board-1',
  channel: 1,
  thermocouple: 'K',
  use: 'zone',
  attachmentErrorKelvin: 0,
  ...facts,
});
const wire = (facts: Partial<Instrument> = {}): Instrument => ({
  id: 'W',
  kind: 'wire lot',
  thermocouple: 'K',
  ...facts,
});
const cable = (facts: Partial<Instrument> = {}): Instrument => ({
  id: 'X',
  kind: 'extension cable',
  thermocouple: 'K',
  ...facts,
});
const board = (maximumErrorKelvin: number, coldJunctionErrorKelvin: number): Instrument => ({
  id: 'B',
  kind: 'board',
  board: 'board-1',
  maximumErrorKelvin,
  coldJunctionErrorKelvin,
});
/** Full scale and offset of the second budget are two limits; the root of their squares stands for both. */
const gainAndOffset = Math.sqrt(0.95 ** 2 + 0.19 ** 2);
const tipCalibrated = wire({
  certificate: 'C-1',
  corrections: [100, 200].map((atCelsius) => ({
    atCelsius,
    correctionKelvin: 0,
    expandedKelvin: 1 / Math.sqrt(3),
    coverageFactor: 1,
  })),
});

test.each([
  [
    'class 1 wire into a converter of 1.5 K',
    { wire: wire({ toleranceClass: 'IEC 60584-1 class 1' }), extension: 'none', converter: board(1.5, 0) },
    0,
    1.22,
    2.45,
  ],
  [
    'class 1 wire and cable into a better converter',
    {
      wire: wire({ toleranceClass: 'IEC 60584-1 class 1' }),
      extension: cable({ toleranceClass: 'IEC 60584-3 class 1' }),
      converter: board(gainAndOffset, 0.7),
    },
    0,
    1.41,
    2.81,
  ],
  [
    'class 2 throughout',
    {
      wire: wire({ toleranceClass: 'IEC 60584-1 class 2' }),
      extension: cable({ toleranceClass: 'IEC 60584-3 class 2' }),
      converter: board(2, 2),
    },
    0,
    2.61,
    5.23,
  ],
  [
    'a calibrated tip, its fixing within 2 K',
    { wire: tipCalibrated, extension: 'none', converter: board(1.5, 0) },
    2,
    1.55,
    3.11,
  ],
] as const)('%s', (_, chain, attachmentErrorKelvin, standard, expanded) => {
  const budget = budgetOf(probe({ attachmentErrorKelvin }), chain, 150);
  expect(Math.abs(budget.standardKelvin - standard)).toBeLessThan(0.01);
  expect(Math.abs(budget.expandedKelvin - expanded)).toBeLessThan(0.02);
});

test('a chain of which nothing is known is taken at its worst, and each term of it says so', () => {
  const { attachmentErrorKelvin: _, ...unknown } = probe();
  const { terms, expandedKelvin } = budgetOf(unknown, {}, 150);
  expect(terms.map(({ source, isKnown }) => [source, isKnown])).toEqual([
    ['wire', false],
    ['extension', false],
    ['converter', false],
    ['cold junction', false],
    ['attachment', false],
  ]);
  // The third budget above with 5 K for the fixing: 2 x sqrt(2.61^2 + 25 / 3), computed.
  expect(expandedKelvin).toBeCloseTo(7.79, 1);
});

test('outside the points of its certificate a wire keeps its tolerance beside the certificate', () => {
  const inside = budgetOf(probe(), { wire: tipCalibrated, extension: 'none', converter: board(1, 0) }, 150);
  const outside = budgetOf(probe(), { wire: tipCalibrated, extension: 'none', converter: board(1, 0) }, 250);
  expect(inside.terms.map(({ source }) => source)).toEqual(['calibration', 'converter', 'cold junction', 'attachment']);
  expect(outside.terms.map(({ source }) => source)).toEqual([
    'calibration',
    'wire',
    'converter',
    'cold junction',
    'attachment',
  ]);
});

test('a thermometer held on by hand counts by what its maker states, and unknown at the worst of its kind', () => {
  const contact: Instrument = { id: 'CT-1', kind: 'contact thermometer', maximumErrorKelvin: 3 };
  // 2 x 3 / sqrt 3, computed.
  expect(handBudget(contact, 150).expandedKelvin).toBeCloseTo(3.464, 3);
  expect(handBudget(undefined, 150).expandedKelvin).toBeCloseTo(23.094, 3);
});

test('a pyrometer is off by what its emissivity is off: the law of Wien at 10 micrometres, computed', () => {
  // 1/T = 1/423.15 - 10e-6 / 0.014388 x ln(true / set). Set 0.95 on a surface of 0.8: 129.6 °C instead of 150 °C.
  const shows = (set: number, true_: number): number =>
    1 / (1 / 423.15 - (10e-6 / 0.014388) * Math.log(true_ / set)) - 273.15;
  expect(shows(0.95, 0.8)).toBeCloseTo(129.6, 1);
  const pyrometer: Instrument = { id: 'P-1', kind: 'pyrometer', maximumErrorKelvin: 2 };
  const { terms } = handBudget(pyrometer, 150, { emissivity: 0.85 });
  const stated = terms.find(({ source }) => source === 'emissivity')!.statedKelvin;
  // Linear in the emissivity, so near the two exact values of 0.1 too much and 0.1 too little.
  expect(stated).toBeGreaterThan((150 - shows(0.85, 0.75)) * 0.9);
  expect(stated).toBeLessThan((shows(0.85, 0.95) - 150) * 1.15);
  // Nobody entered what is set on it: 20 K, as 0.8 taken for 0.95.
  expect(handBudget(pyrometer, 150).terms.find(({ source }) => source === 'emissivity')!.statedKelvin).toBe(20);
});
