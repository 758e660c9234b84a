/**
 * How far production may depart from the test piece. ASME IX QW-406.1: 55 °C below the qualified preheat, test piece at 150
 * and procedure at 95 or more; QW-406.3: 55 °C above the highest interpass, 200 and 255 or less (both second-hand:
 * practitioners quoting the code). ISO 15614-1:2017 + A1:2019 8.4.8 and 8.4.9: 50 °C (second-hand); of some material
 * groups the tested maximum stays (from memory, doubtful, so that it is asked for). ISO 15614-1:2004: no departure.
 */
import { describe, expect, it } from 'vitest';
import { aboveUpper, comparedWithTest, qualifiedRange } from '../../server/metallurgy/qualified-range.ts';
import type { ProcedureQualification } from '../../server/weld/procedure-qualification.ts';
import { plainJoint } from '../support/plain-joint.ts';

const tested = { record: 'Q-1', preheatCelsius: 150, interpassCelsius: 200 };
const asme = (more: Partial<ProcedureQualification> = {}): ProcedureQualification => ({
  ...tested,
  standard: 'ASME IX',
  ...more,
});
const iso = (more: Partial<ProcedureQualification> = {}): ProcedureQualification => ({
  ...tested,
  standard: 'ISO 15614-1:2017',
  ...more,
});
const upper = (qualification: ProcedureQualification) => qualifiedRange(qualification).interpass!;
const compared = (qualification: ProcedureQualification, procedure: object = {}, joint: object = {}) =>
  comparedWithTest(
    plainJoint({
      procedure: { id: 'P', revision: '0', decisionRule: 'simple acceptance', qualification, ...procedure },
      ...joint,
    }),
  ).map(({ variable, standing, missing }) =>
    [variable, standing, ...(missing === undefined ? [] : [missing])].join(' '),
  );

describe('ASME IX', () => {
  it('lets preheat fall by 55 °C and interpass rise by 55 °C where impact tests are required', () => {
    expect(qualifiedRange(asme({ impactTests: 'required' }))).toMatchObject({
      preheat: { testedCelsius: 150, atLeastCelsius: 95, clause: { name: 'ASME IX QW-406.1', status: 'second-hand' } },
      interpass: {
        insideCelsius: 255,
        outsideCelsius: 255,
        clause: { name: 'ASME IX QW-406.3', status: 'second-hand' },
      },
    });
  });
  it('binds no interpass without impact tests, and says what is missing where nobody stated them', () => {
    expect(qualifiedRange(asme({ impactTests: 'not required' })).interpass).toBeUndefined();
    expect(upper(asme())).toMatchObject({ insideCelsius: 255, missing: 'impact tests' });
    expect([255, 255.1, 900].map((celsius) => aboveUpper(celsius, upper(asme())))).toEqual(['inside', 'open', 'open']);
  });
  it('neither reduces preheat maintenance nor leaves it out (QW-406.2, from memory)', () => {
    const maintained = asme({ impactTests: 'not required', maintenanceCelsius: 120 });
    const limits = { preheatMinimumCelsius: 95 };
    expect(compared(maintained, { ...limits, maintenanceMinimumCelsius: 120 })).toContain('maintenance inside');
    expect(compared(maintained, { ...limits, maintenanceMinimumCelsius: 119.9 })).toContain('maintenance outside');
    expect(compared(maintained, limits)).toContain('maintenance outside');
  });
  it('counts post-heating added or left out as a change (QW-406.11)', () => {
    const postHeating = { celsius: 250, hours: 2 };
    expect(compared(asme({ postHeating: 'none' }))).toContain('post-heating inside');
    expect(compared(asme({ postHeating: 'none' }), {}, { postHeating })).toContain('post-heating outside');
    expect(compared(asme({ postHeating }))).toContain('post-heating outside');
    expect(compared(asme({ postHeating }), {}, { postHeating })).toContain('post-heating inside');
    expect(compared(asme()).some((each) => each.startsWith('post-heating'))).toBe(false);
  });
});

describe('ISO 15614-1', () => {
  it('2017: 50 °C either way; interpass by material group, which is asked for', () => {
    expect(qualifiedRange(iso()).preheat).toMatchObject({ atLeastCelsius: 100 });
    expect([200, 200.1, 250, 250.1].map((celsius) => aboveUpper(celsius, upper(iso())))).toEqual([
      'inside',
      'open',
      'open',
      'outside',
    ]);
    expect(upper(iso({ interpassRise: 'allowed' }))).toMatchObject({ insideCelsius: 250, outsideCelsius: 250 });
    expect(upper(iso({ interpassRise: 'not allowed' }))).toMatchObject({ insideCelsius: 200, outsideCelsius: 200 });
  });
  it('2004: from the preheat of the test to the highest interpass reached', () => {
    expect(qualifiedRange(iso({ standard: 'ISO 15614-1:2004' }))).toMatchObject({
      preheat: { atLeastCelsius: 150 },
      interpass: { insideCelsius: 200, outsideCelsius: 200 },
    });
  });
});

describe('a procedure against its test piece', () => {
  it('the limit itself is inside; a limit that is not stated is open', () => {
    const both = { preheatMinimumCelsius: 95, interpassMaximumCelsius: 255 };
    const required = asme({ impactTests: 'required' });
    expect(compared(required, both)).toEqual(['preheat inside', 'interpass inside']);
    expect(compared(required, { preheatMinimumCelsius: 94.9, interpassMaximumCelsius: 255.1 })).toEqual([
      'preheat outside',
      'interpass outside',
    ]);
    expect(compared(required)).toEqual(['preheat open', 'interpass open']);
    expect(compared(asme(), { ...both, interpassMaximumCelsius: 260 })).toEqual([
      'preheat inside',
      'interpass open impact tests',
    ]);
  });
  it('heat input by the range of the record, as arc energy or with the efficiency in it', () => {
    const range = (counted: 'arc energy' | 'heat input', minimum: number, maximum: number) => ({
      preheatCelsius: undefined,
      interpassCelsius: undefined,
      heatInput: { counted, minimumKilojoulesPerMillimetre: minimum, maximumKilojoulesPerMillimetre: maximum },
    });
    const of = (heatInput: object | string, ...args: Parameters<typeof range>) => {
      const { preheatCelsius: _, interpassCelsius: __, ...rest } = { ...asme(), ...range(...args) };
      return compared(rest as ProcedureQualification, {}, { heatInput });
    };
    // HI-2: process 135, 28 V, 260 A, 6 mm/s: E 1.2133, Q 0.9707 kJ/mm.
    const arc = { volts: 28, amperes: 260, millimetresPerSecond: 6 };
    expect(of(arc, 'arc energy', 1.22, 2)).toEqual(['heat input outside']);
    expect(of(arc, 'arc energy', 1, 1.22)).toEqual(['heat input inside']);
    expect(of(arc, 'heat input', 0.5, 0.97)).toEqual(['heat input outside']);
    expect(of(arc, 'heat input', 0.97, 2)).toEqual(['heat input inside']);
    expect(of('not stated', 'arc energy', 1, 2)).toEqual(['heat input open']);
  });
  it('nothing is compared without a test piece', () => {
    expect(comparedWithTest(plainJoint())).toEqual([]);
  });
});
