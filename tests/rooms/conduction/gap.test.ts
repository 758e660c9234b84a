/** A gap that is too long for a straight line: the band widens to what can have been, and closes again. */
import { describe, expect, it, test } from 'vitest';
import { acrossGap } from '../../../server/conduction/gap.ts';
import { isRefusal } from '../../../server/conduction/refusal.ts';
import {
  coldestBetween,
  driveSection,
  farFaceBetween,
  hottestBetween,
  type Section,
  sectionNow,
} from '../../../server/conduction/section.ts';
import { milliCelsius } from '../../../server/measure/quantity.ts';
import { everySecond, second, steelSection, taken } from '../../support/driven-wall.ts';

const warmUp = 3600;
const drive = (section: Section, times: readonly number[], face: (at: number) => number): void => {
  for (const at of times) {
    const refused = driveSection(section, second(at), milliCelsius(face(at)));
    if (refused !== undefined) throw new Error(refused.because);
  }
};
/** 80 mm, warmed to 160 degrees and held. */
const warm = (): Section => {
  const section = steelSection(80, { far: 'still air' });
  drive(section, everySecond(0, warmUp), (at) => Math.min(160, 20 + at / 10));
  return section;
};

describe.each([
  ['the heater stayed on', () => 160],
  ['the heater was off and came back', (at: number) => 160 - Math.max(0, 12 - Math.abs((at - warmUp) / 50 - 12))],
  ['the face fell to 130 and stayed', (at: number) => Math.max(130, 160 - (at - warmUp) / 30)],
] as const)('a gap of 20 min in which %s', (_, face) => {
  const until = warmUp + 1200;
  const truth = warm();
  drive(truth, everySecond(warmUp, until), face);
  const across = taken(acrossGap(warm(), second(until), milliCelsius(face(until))));

  it('leaves what was inside within the band', () => {
    const was = coldestBetween(sectionNow(truth));
    const { low, high } = coldestBetween(across);
    expect(low).toBeLessThanOrEqual(was.low);
    expect(hottestBetween(across).high).toBeGreaterThanOrEqual(hottestBetween(sectionNow(truth)).likely);
    expect(high - low).toBeGreaterThan(was.high - was.low);
  });
  it('is as good as forgotten after an hour of readings', () => {
    drive(across, everySecond(until, until + 3600), () => face(until));
    drive(truth, everySecond(until, until + 3600), () => face(until));
    const [a, b] = [coldestBetween(sectionNow(across)), coldestBetween(sectionNow(truth))];
    expect(Math.abs(a.low - b.low)).toBeLessThan(50);
    expect(Math.abs(a.high - b.high)).toBeLessThan(50);
  });
});

test('a part that lost its heat sideways is not taken for warmer than its face', () => {
  const { high, low } = farFaceBetween(taken(acrossGap(warm(), second(warmUp + 7200), milliCelsius(60))));
  expect(low).toBeLessThanOrEqual(60_000);
  expect(high).toBeGreaterThan(100_000);
});

test('the section handed in stays as it is', () => {
  const section = warm();
  const before = JSON.stringify(section);
  acrossGap(section, second(warmUp + 600), milliCelsius(150));
  expect(JSON.stringify(section)).toBe(before);
});

test.each([
  ['behind a colder mass', { far: 'colder mass or fluid', farProbe: true } as const, 600, 'far side not judged'],
  ['of more than two days', {}, 49 * 3600, 'gap too long'],
] as const)('a gap %s is refused: begin anew', (_, spec, seconds, refused) => {
  const across = acrossGap(steelSection(80, spec), second(seconds), milliCelsius(150));
  expect(isRefusal(across) && across.refused).toBe(refused);
});
