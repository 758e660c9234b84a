/** The set-up drawing: to scale, every placed probe in it, nothing made up. */
import { describe, expect, it } from 'vitest';
import { sectionDrawing } from '../../../server/report/set-up/section-drawing.ts';
import { setUpAlternative, setUpSvg } from '../../../server/report/set-up/set-up-svg.ts';
import { fixtureJoint } from '../../support/report-joint.ts';

const place = (side: 'A' | 'B', distanceMillimetres: number, clock?: number) => ({
  part: side === 'A' ? 'shell course 2' : 'shell course 3',
  side,
  face: 'front',
  distanceMillimetres,
  ...(clock === undefined ? {} : { clock }),
});
const probe = (id: string, channel: number, where: unknown) => ({
  id,
  board: 'B',
  channel,
  thermocouple: 'K',
  use: 'zone',
  place: where,
});

describe('set-up', () => {
  it('puts probes of one place together and names those without a place', () => {
    const drawing = sectionDrawing(fixtureJoint());
    expect(drawing.sides[0]!.points).toEqual([
      { probes: ['H1'], face: 'back', distanceMillimetres: 40, beyond: false },
      { probes: ['Z1', 'Z3'], face: 'front', distanceMillimetres: 75, beyond: false },
      { probes: ['Z5'], face: 'front', distanceMillimetres: 100, beyond: false },
    ]);
    expect(drawing.unplaced).toEqual(['Amb']);
    expect(drawing.caption).toContain('Without a place: Amb.');
  });

  it('says where a probe lies further out than the drawing reaches', () => {
    const joint = fixtureJoint({ probes: [probe('far', 1, place('B', 3000)), probe('near', 2, place('A', 75))] });
    const drawing = sectionDrawing(joint);
    expect(drawing.sides[1]!.points[0]!.beyond).toBe(true);
    expect(setUpSvg(drawing)).toContain('far at 3000 mm (further out than drawn)');
  });

  it('draws clock positions of a pipe, 0 and 12 as one', () => {
    const joint = fixtureJoint({
      jointType: 'pipe butt',
      probes: [probe('a', 1, place('A', 75, 0)), probe('b', 2, place('A', 75, 12)), probe('c', 3, place('B', 75, 6))],
    });
    const drawing = sectionDrawing(joint);
    expect(drawing.clock).toEqual([
      { hour: 0, probes: ['a', 'b'] },
      { hour: 6, probes: ['c'] },
    ]);
    expect(setUpAlternative(drawing)).toContain('Clock positions: a and b at 12, c at 6.');
  });

  it('draws one part on both sides where it is repaired or built up', () => {
    const joint = fixtureJoint({
      jointType: 'build-up',
      parts: [{ id: 'roll', side: 'both', thicknessMillimetres: 300, analyses: [] }],
      probes: [probe('a', 1, { part: 'roll', side: 'A', face: 'front', distanceMillimetres: 75 })],
    });
    const drawing = sectionDrawing(joint);
    expect(drawing.sides.map(({ part }) => part)).toEqual(['roll', 'roll']);
    expect(setUpSvg(drawing)).not.toMatch(/NaN|undefined/);
  });
});
