/**
 * Heat input Q = k * E. Rows HI-1 to HI-5 computed independently from the definition of arc energy
 * (ISO/TR 18491) and the published efficiencies of EN 1011-1 by ISO 4063 process.
 */
import { expect, test } from 'vitest';
import { arcEnergy, arcEnergyShown, heatInput, passEnergy } from '../../server/metallurgy/heat-input.ts';
import type { Joint } from '../../server/weld/joint.ts';
import { plainJoint } from '../support/plain-joint.ts';

const rows: readonly [string, Joint['process'], number, number, number, number, number][] = [
  ['HI-1', '111', 24, 160, 3.0, 1.28, 1.024],
  ['HI-2', '135', 28, 260, 6.0, 1.21333, 0.970667],
  ['HI-3', '121', 32, 600, 10, 1.92, 1.92],
  ['HI-4', '141', 14, 180, 1.8, 1.4, 0.84],
  ['HI-5', '136', 26, 220, 4.5, 1.27111, 1.01689],
];

for (const [id, process, volts, amperes, millimetresPerSecond, energy, q] of rows) {
  test(`${id}: process ${process} gives ${q} kJ/mm`, () => {
    expect(arcEnergy(volts, amperes, millimetresPerSecond)).toBeCloseTo(energy, 4);
    const fact = heatInput(
      plainJoint({
        process,
        heatInput: { volts, amperes, millimetresPerSecond },
      }),
    );
    expect(fact.known && fact.input.value).toBeCloseTo(q, 4);
    const run = { volts, amperes, runOutMillimetres: 100 * millimetresPerSecond, arcSeconds: 100 };
    const pass = passEnergy(run, process, 'heat input');
    expect(pass.known && pass.kilojoulesPerMillimetre).toBeCloseTo(q, 4);
    const without = passEnergy({ volts, amperes, millimetresPerSecond }, process, 'arc energy');
    expect(without.known && without.kilojoulesPerMillimetre).toBeCloseTo(energy, 4);
  });
}

test('a heat input that is entered as such already holds its k, whatever the process', () => {
  const fact = heatInput(plainJoint({ process: '141', heatInput: { kilojoulesPerMillimetre: 1.5 } }));
  expect(fact.known && fact.input.value).toBe(1.5);
});

test('a heat input that is not stated is asked for', () => {
  const fact = heatInput(plainJoint({ heatInput: 'not stated' }));
  expect(fact.known).toBe(false);
});

test('a waveform-controlled source: energy over length, and power over speed, give the energy of volts and amperes', () => {
  // ISO/TR 18491, from memory. 24 V and 160 A are 3840 W; at 3 mm/s a bead of 300 mm takes 100 s and 384 kJ. k 0.8.
  const byEnergy = { instantaneousJoules: 384_000, beadMillimetres: 300 };
  const byPower = { instantaneousWatts: 3840, millimetresPerSecond: 3 };
  for (const stated of [byEnergy, byPower]) {
    const joint = plainJoint({ process: '111', heatInput: stated });
    const fact = heatInput(joint);
    expect(fact.known && fact.input.value).toBeCloseTo(1.024, 9);
    expect(arcEnergyShown(joint)!.value).toBeCloseTo(1.28, 9);
  }
});

test('arc energy without k is shown beside, as ASME IX QW-409.1 counts (second-hand)', () => {
  const measured = { volts: 14, amperes: 180, millimetresPerSecond: 1.8 };
  expect(arcEnergyShown(plainJoint({ process: '141', heatInput: measured }))!.value).toBeCloseTo(1.4, 9);
  const stated = { kilojoulesPerMillimetre: 0.84 };
  const shown = arcEnergyShown(plainJoint({ process: '141', heatInput: stated }))!;
  expect(shown.value).toBeCloseTo(1.4, 9);
  expect(shown.from).toContain('k 0.6');
  expect(arcEnergyShown(plainJoint({ heatInput: 'not stated' }))).toBeUndefined();
});
