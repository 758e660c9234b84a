/**
 * Heat input Q = k * E. Rows HI-1 to HI-5 computed independently from the definition of arc energy
 * (ISO/TR 18491) and the published efficiencies of EN 1011-1 by ISO 4063 process.
 */
import { expect, test } from 'vitest';
import { arcEnergy, heatInput } from '../../server/metallurgy/heat-input.ts';
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
