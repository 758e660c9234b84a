/**
 * Cooling time t8/5 by EN 1011-2:2001 annex D (from SEW 088). The two forms are verified in two texts; shape factors
 * are from memory. Rows TC-1 to TC-7 and the inverse are computed independently from the formulas, 0.5 %.
 */
import { expect, test } from 'vitest';
import {
  type CoolingConditions,
  coolingSeconds,
  coolingSecondsThree,
  coolingSecondsTwo,
  heatInputFor,
  transitionMillimetres,
} from '../../server/metallurgy/cooling-time.ts';
import { shapeFactors } from '../../server/metallurgy/shape-factor.ts';

const at = (celsius: number, thicknessMillimetres: number, shapeTwo = 1, shapeThree = 1): CoolingConditions => ({
  celsius,
  thicknessMillimetres,
  shapeTwo,
  shapeThree,
});
const near = (value: number, wanted: number) => expect(Math.abs(value / wanted - 1)).toBeLessThan(0.005);

const rows = [
  { id: 'TC-1', q: 1.0, tp: 20, three: 5.2885, two: [11.364, 5.0505, 2.8409], dt: 14.659 },
  { id: 'TC-2', q: 1.0, tp: 100, three: 6.6429, two: [16.29, 7.2398, 4.0724], dt: 15.659 },
  { id: 'TC-3', q: 1.0, tp: 150, three: 7.8462, two: [21.186, 9.4159, 5.2965], dt: 16.432 },
  { id: 'TC-4', q: 1.5, tp: 125, three: 10.8, two: [41.62, 18.498, 10.405], dt: 19.631 },
  { id: 'TC-5', q: 2.0, tp: 150, three: 15.692, two: [84.743, 37.664, 21.186], dt: 23.239 },
  { id: 'TC-6', q: 1.0, tp: 200, three: 9.5, two: [28.667, 12.741, 7.1667], dt: 17.371 },
];

for (const { id, q, tp, three, two, dt } of rows) {
  test(`${id}: ${q} kJ/mm from ${tp} °C`, () => {
    near(coolingSecondsThree(at(tp, 50), q), three);
    for (const [index, d] of [10, 15, 20].entries()) near(coolingSecondsTwo(at(tp, d), q), two[index]!);
    near(transitionMillimetres(at(tp, 50), q), dt);
    // In a plate of the transition thickness both formulas give the same time.
    const there = at(tp, transitionMillimetres(at(tp, 50), q));
    expect(coolingSecondsTwo(there, q)).toBeCloseTo(coolingSecondsThree(there, q), 9);
  });
}

test('TC-7: shape factors of butt and fillet welds', () => {
  const butt = shapeFactors['between runs of a butt weld'];
  const tee = shapeFactors['fillet on a T-joint'];
  near(coolingSecondsThree(at(125, 50, butt.two.lowest, butt.three), 1.5), 9.72);
  near(coolingSecondsThree(at(125, 50, tee.two.lowest, tee.three), 1.5), 7.236);
  near(coolingSecondsTwo(at(125, 12, butt.two.lowest, butt.three), 1.5), 26.012);
  near(coolingSecondsTwo(at(125, 12, tee.two.lowest, tee.three), 1.5), 13.006);
  near(coolingSecondsTwo(at(125, 12, tee.two.highest, tee.three), 1.5), 19.365);
});

test('the larger of the two times counts: two-dimensional in 15 mm, three-dimensional in 20 mm (TC-4)', () => {
  near(coolingSeconds(at(125, 15), 1.5), 18.498);
  near(coolingSeconds(at(125, 20), 1.5), 10.8);
});

test('the inverse: 10 s and 25 s at 150 °C with F3 0.9 in thick plate', () => {
  near(heatInputFor(at(150, 80, 0.9, 0.9), 10), 1.4161);
  near(heatInputFor(at(150, 80, 0.9, 0.9), 25), 3.5403);
});

test('from 500 °C on there is no cooling time', () => {
  expect(() => coolingSeconds(at(500, 20), 1)).toThrow(RangeError);
  expect(coolingSeconds(at(499, 20), 1)).toBeGreaterThan(0);
});
