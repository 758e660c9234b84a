/**
 * EN 1011-2:2001 + A1:2003 C.3 (method B).
 *
 * MB-1 is a worked calculation note that quotes the standard (published: CET 0.2840, HD^0.35 = 1.7565, 71 °C).
 * MB-2 to MB-7, and the tables of tanh and HD, are the formula computed independently in double precision, with
 * the corners of its range. The formula is known second-hand through that note.
 */
import { expect, test } from 'vitest';
import { en10112MethodB, methodBTerms } from '../../server/metallurgy/methods/en-1011-2-method-b.ts';

const rows = [
  { id: 'MB-1', cet: 0.284, d: 31.5, hd: 5, q: 1.3, celsius: 71.424 },
  { id: 'MB-2', cet: 0.3, d: 30, hd: 5, q: 1.0, celsius: 85.066, terms: [75.0, 1.1652, 8.9008, 0] },
  { id: 'MB-3', cet: 0.4, d: 60, hd: 10, q: 2.0, celsius: 217.95, terms: [150.0, 39.947, 38.801, -10.8] },
  { id: 'MB-4', cet: 0.25, d: 20, hd: 3, q: 0.8, celsius: 4.9471, terms: [37.5, -27.375, -8.9282, 3.75] },
  { id: 'MB-5', cet: 0.35, d: 90, hd: 15, q: 1.5, celsius: 213.88, terms: [112.5, 48.142, 59.965, -6.725] },
  { id: 'MB-6', cet: 0.5, d: 90, hd: 20, q: 0.5, celsius: 352.8, terms: [225.0, 48.142, 76.91, 2.75] },
  { id: 'MB-7', cet: 0.2, d: 10, hd: 1, q: 4.0, celsius: -167.69, terms: [0, -65.49, -38.0, -64.2] },
] as const;

for (const row of rows) {
  test(`${row.id}: CET ${row.cet}, ${row.d} mm, HD ${row.hd}, Q ${row.q} gives ${row.celsius} °C`, () => {
    const terms = methodBTerms(row);
    const sum = terms.reduce((total, term) => total + term.value, 0);
    expect(Math.abs(sum - row.celsius)).toBeLessThan(0.1);
    // The formula in one, as the standard prints it, is the sum of its four terms.
    const { cet, d, hd, q } = row;
    const whole = 697 * cet + 160 * Math.tanh(d / 35) + 62 * hd ** 0.35 + (53 * cet - 32) * q - 328;
    expect(sum).toBeCloseTo(whole, 9);
    if ('terms' in row) {
      row.terms.forEach((value, index) => {
        expect(Math.abs(terms[index]!.value - value)).toBeLessThan(0.01);
      });
    }
  });
}

test('MB-1 as published, in whole degrees', () => {
  const sum = methodBTerms({ cet: 0.284, d: 31.5, hd: 5, q: 1.3 }).reduce((total, term) => total + term.value, 0);
  expect(Math.abs(sum - 71)).toBeLessThanOrEqual(1);
});

test('thickness term 160·tanh(d/35) at ten thicknesses', () => {
  const table = [
    [10, 44.51],
    [20, 82.625],
    [30, 111.17],
    [40, 130.46],
    [50, 142.62],
    [60, 149.95],
    [80, 156.72],
    [90, 158.14],
    [100, 158.95],
    [120, 159.66],
    [150, 159.94],
  ] as const;
  for (const [d, value] of table) {
    const term = methodBTerms({ cet: 0.3, d, hd: 5, q: 1 })[1]!;
    expect(Math.abs(term.value + 110 - value)).toBeLessThan(0.01);
  }
});

test('hydrogen term 62·HD^0.35 at ten contents', () => {
  const table = [
    [1, 62.0],
    [2, 79.023],
    [3, 91.072],
    [4, 100.72],
    [5, 108.9],
    [8, 128.37],
    [10, 138.8],
    [15, 159.96],
    [16, 163.62],
    [20, 176.91],
  ] as const;
  for (const [hd, value] of table) {
    const term = methodBTerms({ cet: 0.3, d: 30, hd, q: 1 })[2]!;
    expect(Math.abs(term.value + 100 - value)).toBeLessThan(0.01);
  }
});

test('the method declares its range, source and status', () => {
  const bounds = en10112MethodB.range.map((range) => [range.symbol, range.minimum, range.maximum, range.above]);
  expect(bounds).toEqual([
    ['CET', 0.2, 0.5, 'refused'],
    ['d', 10, 90, 'extended'],
    ['HD', 1, 20, 'refused'],
    ['Q', 0.5, 4, 'refused'],
  ]);
  expect(en10112MethodB.status).toBe('second-hand');
});
