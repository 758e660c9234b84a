/** The set-up on paper: to scale, every placed probe in it, nothing made up. */
import { describe, expect, it } from 'vitest';
import { planPicture, sectionPicture } from '../../../server/report/set-up/set-up.ts';
import { jointTypes } from '../../../server/weld/joint.ts';
import { fixtureJoint } from '../../support/report-joint.ts';

const size = { width: 511, heightMost: 120, letters: 7 };
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
  it('names every placed probe with its face and distance, and those without a place', () => {
    const joint = fixtureJoint();
    const { svg, caption, alternative } = sectionPicture(joint, size);
    for (const { id } of joint.probes.filter(({ place }) => place !== undefined)) expect(svg).toContain(`>${id}<`);
    expect(alternative).toContain('Z1 front 75 mm');
    expect(caption).toContain('Without a place: Amb.');
  });

  it('draws section and plan of every type of joint without a number that is none', () => {
    for (const jointType of jointTypes) {
      const joint = fixtureJoint({ jointType });
      for (const { svg, alternative } of [sectionPicture(joint, size), planPicture(joint, size)]) {
        expect(svg).toMatch(/^<svg/);
        expect(`${svg}${alternative}`).not.toMatch(/NaN|undefined|Infinity/);
      }
    }
  });

  it('speaks the units of the job', () => {
    const joint = fixtureJoint({ units: 'inch', probes: [probe('a', 1, place('A', 76.2))] });
    expect(sectionPicture(joint, size).svg).toContain('front 3 in');
    expect(sectionPicture(joint, size).svg).not.toContain(' mm');
  });

  it('draws one part on both sides where it is repaired or built up', () => {
    const joint = fixtureJoint({
      jointType: 'build-up',
      parts: [{ id: 'roll', side: 'both', thicknessMillimetres: 300, analyses: [] }],
      probes: [probe('a', 1, { part: 'roll', side: 'A', face: 'front', distanceMillimetres: 75 })],
    });
    expect(sectionPicture(joint, size).alternative).toContain('part roll, 300 mm thick');
  });
});
