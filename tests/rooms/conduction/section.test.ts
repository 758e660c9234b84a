/** One place through the thickness, with what is not known carried as bounds. */
import { describe, expect, it, test } from 'vitest';
import {
  coldestBetween,
  copySection,
  createSection,
  driveSection,
  farFaceBetween,
  hottestBetween,
  type Section,
  sectionNow,
  startBand,
  wallsOf,
} from '../../../server/conduction/section.ts';
import { carbonSteel } from '../../../server/conduction/steel/carbon.ts';
import { milliCelsius } from '../../../server/measure/quantity.ts';
import { driveWall, everySecond, rampTo, second, steelSection, steelWall } from '../../support/driven-wall.ts';

const milli = (celsius: number | undefined) => (celsius === undefined ? undefined : milliCelsius(celsius));
function drive(
  section: Section,
  times: readonly number[],
  front: (at: number) => number,
  back: (at: number) => number | undefined = () => undefined,
) {
  for (const at of times) {
    const refused = driveSection(section, second(at), milli(front(at)), milli(back(at)));
    if (refused !== undefined) return refused;
  }
  return undefined;
}
const coldAfter = (section: Section, until: number) => {
  drive(section, everySecond(0, until), rampTo(160, 300));
  return coldestBetween(sectionNow(section));
};

describe('the far side', () => {
  test.each(['insulated', 'still air', 'draught', 'unknown'] as const)(
    '%s: low, likely and high in this order',
    (far) => {
      const { low, likely, high } = coldAfter(steelSection(100, { far }), 1680);
      expect(low).toBeLessThan(likely);
      expect(likely).toBeLessThan(high);
    },
  );
  it('that is not known counts as one in a draught', () => {
    expect(coldAfter(steelSection(100, { far: 'unknown' }), 1680).low).toBe(
      coldAfter(steelSection(100, { far: 'draught' }), 1680).low,
    );
  });
  it('in colder surroundings is colder', () => {
    expect(coldAfter(steelSection(100, { ambientCelsius: -10, far: 'draught' }), 3600).low).toBeLessThan(
      coldAfter(steelSection(100, { far: 'draught' }), 3600).low - 1000,
    );
  });
  it('with a colder mass or a fluid is not judged without a probe there', () => {
    const spec = {
      shape: { kind: 'plate', thicknessMillimetres: 50 },
      steel: carbonSteel,
      far: 'colder mass or fluid',
      ambientCelsius: 20,
    } as const;
    const start = { at: second(0), faceCelsius: 20, inside: 'as the face' } as const;
    expect(createSection({ ...spec, farProbe: false }, start)).toMatchObject({ refused: 'far side not judged' });
    const probed = steelSection(50, { far: 'colder mass or fluid', farProbe: true });
    expect(drive(probed, everySecond(0, 600), rampTo(100, 600), () => 20)).toBeUndefined();
    expect(drive(probed, everySecond(600, 700), rampTo(100, 600))).toMatchObject({ refused: 'far side not judged' });
  });
});

it('the bounds hold any wall between them, whatever its steel within the band and its loss within the cases', () => {
  const section = steelSection(120, { far: 'unknown' });
  const inner = [0.85, 1, 1.15].flatMap((conductivityFactor) =>
    [0, 5, 20].map((convection) =>
      steelWall(120, { conductivityFactor, loss: { convection, emissivity: convection / 25 } }),
    ),
  );
  const front = (at: number) => (at < 3000 ? rampTo(200, 400)(at) : Math.max(60, 200 - (at - 3000) / 10));
  for (let from = 0; from < 6000; from += 500) {
    drive(section, everySecond(from, from + 500), front);
    const now = sectionNow(section);
    for (const wall of inner) {
      driveWall(wall, everySecond(from, from + 500), front);
      const { backCelsius } = wall.field;
      // The walls stand at most one step of theirs behind.
      expect(backCelsius * 1000).toBeGreaterThan(farFaceBetween(now).low - 500);
      expect(backCelsius * 1000).toBeLessThan(farFaceBetween(now).high + 500);
    }
  }
});

describe('air that is told with the readings', () => {
  const driven = (air: (at: number) => number | undefined) => {
    const section = steelSection(100, { far: 'draught' });
    for (const at of everySecond(0, 4000)) {
      driveSection(section, second(at), milliCelsius(rampTo(160, 300)(at)), undefined, air(at));
    }
    return section;
  };
  it('colder than entered makes the low and the likely colder, and leaves the high', () => {
    const [entered, colder] = [() => undefined, () => -10].map((air) => coldestBetween(sectionNow(driven(air))));
    expect(colder!.low).toBeLessThan(entered!.low - 1000);
    expect(colder!.likely).toBeLessThan(entered!.likely - 1000);
    expect(Math.abs(colder!.high - entered!.high)).toBeLessThan(1);
  });
  it('warmer than entered leaves the low, since it may be the probe alone that is warm', () => {
    const [entered, warmer] = [() => undefined, () => 45].map((air) => coldestBetween(sectionNow(driven(air))));
    expect(warmer!.low).toBe(entered!.low);
    expect(warmer!.likely).toBeGreaterThan(entered!.likely + 500);
  });
  it('stays until it is told anew, through a copy as well', () => {
    const always = driven(() => 5);
    expect(driven((at) => (at === 1 ? 5 : undefined))).toEqual(always);
    expect(copySection(always)).toEqual(always);
    expect(always.likely.ambientCelsius).toBe(5);
  });
  it('that is no number or no air is refused, and changes nothing', () => {
    const section = steelSection(100);
    const before = structuredClone(section);
    expect(driveSection(section, second(1), milliCelsius(20), undefined, Number.NaN)).toMatchObject({
      refused: 'not a number',
    });
    expect(driveSection(section, second(1), milliCelsius(20), undefined, 900)).toMatchObject({
      refused: 'above the range of the properties',
    });
    expect(section).toEqual(before);
  });
});

describe('a start that is not known', () => {
  it('is anything between ambient and the face, and is forgotten', () => {
    const start = { faceCelsius: 120, inside: 'not known' } as const;
    const section = steelSection(100, { far: 'insulated' }, start);
    const apart = (until: number) => {
      drive(section, everySecond(until - 400, until), () => 120);
      const { low, high } = coldestBetween(sectionNow(section));
      return high - low;
    };
    const band = () => startBand(sectionNow(section), { at: second(0), ...start });
    expect(apart(400)).toBeGreaterThan(40_000);
    expect(band().fourier).toBeLessThan(0.5);
    for (let until = 800; until <= 4000; until += 400) apart(until);
    expect(apart(4400)).toBeLessThan(2_000);
    expect(band().fourier).toBeGreaterThan(3);
    expect(band().left).toBeLessThan(0.01);
    expect(band().atMost).toBeLessThan(1_000);
  });
  it('with the face no warmer than the air may have been cooler inside only by what the air is', () => {
    const section = steelSection(50, { ambientCelsius: 25 }, { faceCelsius: 5, inside: 'not known' });
    expect(coldestBetween(section)).toMatchObject({ low: 5000, high: 5000 });
    expect(hottestBetween(section)).toMatchObject({ low: 5000, high: 25_000 });
  });
});

it('probes on both faces leave little to be guessed', () => {
  const one = steelSection(100, { far: 'unknown' });
  const both = steelSection(100, { far: 'unknown', farProbe: true });
  drive(one, everySecond(0, 1680), rampTo(160, 300));
  drive(both, everySecond(0, 1680), rampTo(160, 300), (at) => 20 + (105 * at) / 1680);
  const width = (section: Section) => {
    const { low, high } = coldestBetween(sectionNow(section));
    return high - low;
  };
  expect(width(one)).toBeGreaterThan(15_000);
  expect(width(both)).toBeLessThan(100);
});

it('a copy goes on by itself', () => {
  const section = steelSection(60);
  drive(section, everySecond(0, 100), rampTo(160, 300));
  const copy = copySection(section);
  const before = JSON.stringify(wallsOf(copy));
  drive(section, everySecond(100, 200), rampTo(160, 300));
  expect(JSON.stringify(wallsOf(copy))).toBe(before);
  drive(copy, everySecond(100, 200), rampTo(160, 300));
  expect(copy).toEqual(section);
});
