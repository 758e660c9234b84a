/**
 * Where to measure, ISO 13916: up to 50 mm thick at min(4t, 50) mm from the groove edge, thicker over 75 mm in every
 * direction (verified on a preview of AS ISO 13916); wait after heat off 2 min for each 25 mm (from memory, long-
 * standing EN and BS text). Heated distances: AWS D1.1 (verified in two texts), API RP 582 8.2 and ASME B31.3 330.1.4
 * (verified), ASME B31.1 (from memory). Values computed from the rules.
 */
import { expect, test } from 'vitest';
import { evenOutSeconds, heatedDistances, measuringOf } from '../../server/placing/rules.ts';

test.each([
  ['MP-a', 5, 20, 24],
  ['MP-b', 8, 32, 38.4],
  ['MP-c', 12, 48, 57.6],
  ['MP-d', 12.5, 50, 60],
  ['MP-e', 25, 50, 120],
  ['MP-f', 50, 50, 240],
  ['MP-g', 60, 75, 288],
  ['MP-h', 100, 75, 480],
  ['MP-i', 200, 75, 960],
] as const)('%s: %s mm thick', (_, thickness, distance, wait) => {
  expect(measuringOf(thickness)).toMatchObject({
    kind: thickness > 50 ? 'zone' : 'at',
    distanceMillimetres: distance,
  });
  expect(evenOutSeconds(thickness)).toBeCloseTo(wait, 6);
});

test.each([
  [40, 75, 75, 25, 75],
  [80, 80, 75, 25, 120],
  [120, 120, 75, 25, 180],
] as const)('heated distance at %s mm: D1.1, RP 582, B31.3, B31.1', (thickness, d11, rp582, b313, b311) => {
  const of = (name: RegExp): number | undefined =>
    heatedDistances(thickness).find(({ source }) => name.test(source))?.distanceMillimetres;
  expect([of(/D1\.1/), of(/RP 582/), of(/B31\.3/), of(/B31\.1/)]).toEqual([d11, rp582, b313, b311]);
});
