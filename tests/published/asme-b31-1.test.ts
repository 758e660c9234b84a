/**
 * ASME B31.1 paragraph 131.4: from memory; same structure as table IV of US Navy S9074-AR-GIB-010/278, which is
 * verified. Look-ups are exact.
 */
import { expect, test } from 'vitest';
import { pipingRow } from '../support/piping-row.ts';

test.each([
  ['1', 30, 480, { C: 0.31 }, 80],
  ['1', 30, 480, { C: 0.3 }, 10],
  ['3', 16, 480, {}, 10],
  ['3', 17, 480, {}, 80],
  ['4', 14, 400, {}, 120],
  ['4', 13, 410, {}, 10],
  ['5A', 10, 411, {}, 200],
  ['6', 10, 480, {}, 200],
  ['15E', 45, 585, {}, 200],
] as const)(
  'B31.1, P-No. %s, %s mm, %s MPa: from memory',
  (pNumber, thicknessMillimetres, tensileMegapascals, percent, celsius) => {
    const one = pipingRow('ASME B31.1', { pNumber, thicknessMillimetres, tensileMegapascals }, percent);
    expect([one.computedCelsius, one.status]).toEqual([celsius, 'from memory']);
  },
);
