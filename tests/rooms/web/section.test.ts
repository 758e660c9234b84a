import { describe, expect, test } from 'vitest';
import { jointTypes } from '../../../server/weld/joint.ts';
import { labelHeight, sectionSheet } from '../../../web/parts/section/on-screen.ts';
import { girder, nozzle } from '../../support/station/joints.ts';

const pin = (plan: ReturnType<typeof sectionSheet>, probe: string) => plan.pins.find((each) => each.probe === probe)!;

test('distances and thicknesses are to one scale', () => {
  const plan = sectionSheet(girder, 1000);
  const scale = plan.perMillimetre;
  expect(pin(plan, 'A1').tip[0] - pin(plan, 'A2').tip[0]).toBeCloseTo(75 * scale, 6);
  expect(pin(plan, 'A3').tip[1] - pin(plan, 'A1').tip[1]).toBeCloseTo(80 * scale, 6);
  expect(pin(plan, 'B3').tip[1] - pin(plan, 'B1').tip[1]).toBeCloseTo(60 * scale, 6);
});

test('side A lies left, side B right, front above back; labels of the front above, of the back below', () => {
  const plan = sectionSheet(girder, 1000);
  expect(pin(plan, 'A1').tip[0]).toBeLessThan(pin(plan, 'B1').tip[0]);
  expect(pin(plan, 'A1').label[1]).toBeLessThan(pin(plan, 'A1').tip[1]);
  expect(pin(plan, 'A3').label[1]).toBeGreaterThan(pin(plan, 'A3').tip[1]);
});

test('an upright part stands: its probes lie above each other, and beside the face they touch', () => {
  const plan = sectionSheet(nozzle, 700);
  const tip = pin(plan, 'N1').tip;
  expect(tip[1]).toBeLessThan(pin(plan, 'S1').tip[1]);
  expect(pin(plan, 'N1').label[0]).toBeGreaterThan(tip[0]);
});

describe.each(jointTypes)('%s', (jointType) => {
  test.each([320, 640, 1200])('at %d px every label is on the sheet and no two cover each other', (width) => {
    for (const joint of [
      { ...girder, jointType },
      { ...nozzle, jointType },
    ]) {
      const plan = sectionSheet(joint, width);
      for (const each of plan.pins) {
        expect(each.label[0]).toBeGreaterThanOrEqual(0);
        expect(each.label[0] + plan.labelWidth).toBeLessThanOrEqual(plan.width);
        expect(each.label[1]).toBeGreaterThanOrEqual(0);
        expect(each.label[1] + labelHeight).toBeLessThanOrEqual(plan.height);
      }
      const covered = plan.pins.flatMap((one, index) =>
        plan.pins
          .slice(index + 1)
          .filter(
            (other) =>
              Math.abs(one.label[0] - other.label[0]) < plan.labelWidth - 0.01 &&
              Math.abs(one.label[1] - other.label[1]) < labelHeight - 0.01,
          )
          .map((other) => `${one.probe} and ${other.probe}`),
      );
      expect(covered).toEqual([]);
    }
  });

  test('every probe touches the outline of a part', () => {
    const plan = sectionSheet({ ...girder, jointType }, 900);
    const edges = plan.steel.flatMap(({ points }) =>
      points.map((point, index) => [point, points[(index + 1) % points.length]!] as const),
    );
    for (const { probe, tip } of plan.pins) {
      const nearest = Math.min(...edges.map(([from, to]) => distance(tip, from, to)));
      expect({ probe, touches: nearest < 0.5 }).toEqual({ probe, touches: true });
    }
  });
});

type Point = readonly [number, number];
const distance = ([x, y]: Point, [ax, ay]: Point, [bx, by]: Point): number => {
  const length = (bx - ax) ** 2 + (by - ay) ** 2;
  const share = length === 0 ? 0 : Math.min(1, Math.max(0, ((x - ax) * (bx - ax) + (y - ay) * (by - ay)) / length));
  return Math.hypot(x - ax - share * (bx - ax), y - ay - share * (by - ay));
};
