/** How long until a wall is warm enough through its thickness. */
import { describe, expect, it, test } from 'vitest';
import { coldestOf, copyField, held as heldAt, losing, meanOf } from '../../../server/conduction/field.ts';
import type { FarCondition } from '../../../server/conduction/loss.ts';
import { coldestBetween, type Section, sectionNow } from '../../../server/conduction/section.ts';
import type { Shape } from '../../../server/conduction/shape.ts';
import { austeniticSteel } from '../../../server/conduction/steel/austenitic.ts';
import { carbonSteel } from '../../../server/conduction/steel/carbon.ts';
import { step } from '../../../server/conduction/step.ts';
import type { Wall } from '../../../server/conduction/wall.ts';
import { type FaceCourse, type WarmingTarget, warmingOutlook } from '../../../server/conduction/warming.ts';
import { driven, everySecond, rampTo, steelSection, taken } from '../../support/driven-wall.ts';
import { plainDiffusivity, plainSteel } from '../../support/plain-wall.ts';

const held: FaceCourse = { kind: 'held' };
const to = (celsius: number, holdMilliseconds = 0): WarmingTarget => ({ celsius, holdMilliseconds });
const outlook = (now: Section, course: FaceCourse, target: WarmingTarget) => taken(warmingOutlook(now, course, target));

/** Steel without a spread: then the unknown far side alone makes best, likely and worst. */
const oneSteel = { ...carbonSteel, diffusivityBand: 0 };

describe('a surface ramped from 20 to 160 degrees and held: 150 degrees through the thickness', () => {
  // Computed with another solver of the same equations for EN 1993-1-2 steel; minutes after the end of the ramp, printed
  // to 0.1; 0 where it is so before the end. Its ramp ended within one step of its own. Insulated, still air, draught.
  const never = undefined;
  const rows: (readonly [number, number, number, number, number | undefined])[] = [
    [25, 300, 0, 0, 0],
    [50, 300, 0, 0.1, 0.7],
    [50, 1000, 1.4, 1.7, 2.2],
    [100, 100, 0.8, 3.3, 13.8],
    [100, 300, 6.7, 8.9, 19.3],
    [100, 1000, 11.6, 13.8, 24.1],
    [150, 300, 23.1, 32.2, never],
    [200, 300, 48.5, 76.8, never],
  ];
  test.each(rows)('%d mm at %d K/h', (thickness, rate, insulated, still, draught) => {
    const section = steelSection(thickness, { far: 'unknown', steel: oneSteel });
    const rampMinutes = (140 / rate) * 60;
    const minutes = (milliseconds: number | undefined) => milliseconds! / 60_000;
    const before = outlook(
      sectionNow(section),
      { kind: 'rising', kelvinPerMinute: rate / 60, toCelsius: 160 },
      to(150),
    );
    driven(section, everySecond(0, rampMinutes * 60), rampTo(160, rate));
    const end = outlook(sectionNow(section), held, to(150));
    // Where the far face comes slowly to a little above the minimum, 0.05 K of the other solver is up to 2 % of the time.
    for (const [found, printed] of [
      [minutes(end.earliest), insulated],
      [minutes(end.likely), still],
      [minutes(end.latest), draught],
    ] as const) {
      if (printed === never) expect(found).toBeNaN();
      else expect(Math.abs(found - printed)).toBeLessThanOrEqual(0.1 + 0.02 * printed);
    }
    expect(end.reaches).toBe(draught === never ? 'not at worst' : 'always');
    expect(end.insulatedHelps).toBe(draught === never);
    // From the cold part on it is the same, the ramp before it.
    for (const name of ['earliest', 'likely', 'latest'] as const) {
      const [early, late] = [before[name], end[name]];
      if (late === undefined || late === 0)
        expect((early ?? Number.POSITIVE_INFINITY) > rampMinutes * 60_000).toBe(late === undefined);
      else expect(Math.abs(minutes(early) - rampMinutes - minutes(late))).toBeLessThan(0.02 + 0.004 * minutes(late));
    }
  });
});

describe('the time that is found', () => {
  /** What the coldest point has after that time, stepped at every second. */
  function coldestAfter(wall: Wall, until: number, front: (at: number) => number): number {
    const { loss, ambientCelsius } = wall.spec;
    const field = copyField(wall.field);
    for (let at = 0; at < until; at += 1) {
      const end = Math.min(at + 1, until);
      step(field, end - at, heldAt(front(end)), losing(ambientCelsius, loss.convection, loss.emissivity));
    }
    return coldestOf(field);
  }
  test.each([
    [12, 1000, 140],
    [25, 300, 140],
    [100, 300, 140],
    [100, 300, 150],
    [200, 100, 149],
    [300, 600, 140],
  ])(
    '%d mm, %d K/h: stepped at every second, the coldest point is then within 0.02 K of %d',
    (thickness, rate, celsius) => {
      const now = sectionNow(
        driven(steelSection(thickness, { far: 'still air' }), everySecond(0, 300), rampTo(160, rate)),
      );
      const present = now.likely.field.frontCelsius;
      const front = (at: number) => Math.min(160, present + (rate * at) / 3600);
      const found = outlook(now, { kind: 'rising', kelvinPerMinute: rate / 60, toCelsius: 160 }, to(celsius));
      for (const [name, wall] of [
        ['earliest', now.hotQuick],
        ['likely', now.likely],
        ['latest', now.coldSlow],
      ] as const) {
        const milliseconds = found[name];
        if (milliseconds === undefined) continue;
        expect(Math.abs(coldestAfter(wall, milliseconds / 1000, front) - celsius)).toBeLessThan(0.03);
      }
    },
  );
});

describe('a surface that is held, the far face insulated', () => {
  // One mode of the series, computed from the formula: t = (4 L^2 / (pi^2 a)) ln((4 / pi) (Ts - T0) / (Ts - T)).
  test.each([100, 140, 155, 159])('%d degrees through 100 mm', (celsius) => {
    const section = steelSection(100, { far: 'insulated', steel: plainSteel });
    const step: FaceCourse = { kind: 'rising', kelvinPerMinute: 1e9, toCelsius: 160 };
    const { likely, earliest } = outlook(section, step, to(celsius));
    const exact =
      ((4 * 0.1 * 0.1) / (Math.PI ** 2 * plainDiffusivity)) * Math.log(((4 / Math.PI) * 140) / (160 - celsius));
    expect(Math.abs(likely! / 1000 / exact - 1)).toBeLessThan(0.003);
    // Steel a fifth quicker takes a fifth less.
    expect(Math.abs((1.2 * earliest!) / likely! - 1)).toBeLessThan(0.003);
  });

  it('never comes to its surface, and comes to all below it', () => {
    const section = steelSection(100, { far: 'insulated' }, { faceCelsius: 160, inside: 'not known' });
    expect(outlook(section, held, to(159.9))).toMatchObject({ reaches: 'not at worst', insulatedHelps: true });
    expect(outlook(section, held, to(161))).toEqual({
      reaches: 'never',
      surfaceNeeded: expect.any(Number),
      insulatedHelps: false,
    });
  });
});

describe('the surface that is needed', () => {
  // Ts = T + Bi (T - Ta) (computed from the formula) where neither conductivity nor film change with the temperature.
  it('is that of the plain formula where the properties do not change', () => {
    const section = steelSection(100, { far: 'insulated', steel: plainSteel });
    const { surfaceNeeded } = outlook(section, held, to(150));
    // At worst 2 W/(m2 K) behind insulation, and a conductivity a fifth under 50.
    expect(surfaceNeeded! / 1000).toBeCloseTo(150 + ((2 * 0.1) / 40) * 130, 2);
  });
  test.each<readonly [FarCondition, Shape]>([
    ['draught', { kind: 'plate', thicknessMillimetres: 150 }],
    ['still air', { kind: 'plate', thicknessMillimetres: 200 }],
    ['draught', { kind: 'tube', front: 'outside', thicknessMillimetres: 80, outsideDiameterMillimetres: 400 }],
    ['draught', { kind: 'tube', front: 'inside', thicknessMillimetres: 80, outsideDiameterMillimetres: 400 }],
    ['unknown', { kind: 'bar', diameterMillimetres: 300 }],
  ])('%s, %o: held a little above it the worst case comes, held a little below it does not', (far, shape) => {
    const section = steelSection(100, { far, shape });
    const { surfaceNeeded } = outlook(section, held, to(150));
    const at = (celsius: number) =>
      outlook(section, { kind: 'rising', kelvinPerMinute: 1e6, toCelsius: celsius }, to(150)).reaches;
    expect(at(surfaceNeeded! / 1000 + 0.03)).toBe('always');
    expect(at(surfaceNeeded! / 1000 - 0.03)).not.toBe('always');
  });
  it('is not named where no surface within the properties is enough, or the far side can not be named', () => {
    expect(outlook(steelSection(300, { far: 'draught', steel: austeniticSteel }), held, to(500))).not.toHaveProperty(
      'surfaceNeeded',
    );
  });
});

describe('how the front goes on', () => {
  const warm = () => sectionNow(driven(steelSection(100), everySecond(0, 1300), rampTo(160, 300)));
  it('rising with no set point known, the minimum comes; with one below the minimum it does not', () => {
    const rising = { kind: 'rising', kelvinPerMinute: 5 } as const;
    expect(outlook(warm(), rising, to(150)).reaches).toBe('always');
    expect(outlook(warm(), { ...rising, toCelsius: 149 }, to(150)).reaches).toBe('never');
    expect(outlook(warm(), { ...rising, kelvinPerMinute: 0 }, to(150)).reaches).toBe(
      outlook(warm(), held, to(150)).reaches,
    );
    expect(outlook(warm(), { ...rising, kelvinPerMinute: -5 }, to(150)).reaches).toBe('never');
  });
  it('a set point that is passed already is where the front comes back to', () => {
    expect(outlook(warm(), { kind: 'rising', kelvinPerMinute: 5, toCelsius: 120 }, to(140)).reaches).toBe('never');
  });
  it('with the heat off the profile evens out: what the mean is above comes, and what it is below does not', () => {
    const now = warm();
    const mean = meanOf(now.likely.field);
    expect(coldestBetween(now).likely / 1000).toBeLessThan(mean - 8);
    expect(outlook(now, { kind: 'left' }, to(mean - 3)).likely).toBeGreaterThan(60_000);
    expect(outlook(now, { kind: 'left' }, to(mean + 9)).reaches).toBe('never');
  });
  it('the minimum that is there already is there now, and after the time it has to be held', () => {
    const now = warm();
    expect(outlook(now, held, to(80))).toMatchObject({ earliest: 0, likely: 0, latest: 0, reaches: 'always' });
    expect(outlook(now, held, to(80, 600_000))).toMatchObject({ earliest: 600_000, likely: 600_000, latest: 600_000 });
    const off = outlook(now, { kind: 'left' }, to(80, 4 * 3_600_000));
    // Left in a draught it does not stay warm for four hours.
    expect(off.latest).toBeUndefined();
    expect(off.earliest).toBeGreaterThanOrEqual(4 * 3_600_000);
  });
  it('leaves the section as it was', () => {
    const now = warm();
    const before = structuredClone(now);
    outlook(now, held, to(150));
    expect(now).toEqual(before);
  });
});

describe('a far face that a probe has driven', () => {
  const probed = (far: FarCondition) => {
    const section = steelSection(100, { far, farProbe: true });
    return sectionNow(driven(section, everySecond(0, 1680), rampTo(160, 300), (at) => 20 + (100 * at) / 1680));
  };
  it('goes on from what was measured by the condition that was entered', () => {
    expect(outlook(probed('still air'), held, to(140)).reaches).toBe('always');
  });
  it('stays where a colder mass holds it, and in the best case comes', () => {
    const found = outlook(probed('colder mass or fluid'), held, to(140));
    expect(found).toMatchObject({ reaches: 'not likely', insulatedHelps: true });
    expect(found.earliest).toBeGreaterThan(0);
    expect(found).not.toHaveProperty('surfaceNeeded');
  });
});

describe('the loss of the far face as probes found it', () => {
  const found = { coefficient: 200, uncertainty: 40 };
  const section = () => steelSection(60, { far: 'colder mass or fluid', farProbe: true, steel: oneSteel });
  const rising: FaceCourse = { kind: 'rising', kelvinPerMinute: 10, toCelsius: 160 };
  it('takes the place of the entered condition: the time lies between those of its two ends', () => {
    const { earliest, likely, latest } = taken(warmingOutlook(section(), rising, to(110), found));
    expect(earliest).toBeLessThan(likely!);
    expect(likely).toBeLessThan(latest!);
    // Stepped at every second, with 240 W/(m2 K).
    const field = copyField(section().likely.field);
    let at = 0;
    for (; coldestOf(field) < 110; at += 1)
      step(field, 1, heldAt(Math.min(160, 20 + (at + 1) / 6)), losing(20, 240, 0));
    expect(Math.abs(latest! / 1000 - at)).toBeLessThan(3);
  });
  it('names the surface that is needed, where no condition does', () => {
    // T + q L / k, the film being 240 W/(m2 K), with the conductivity between both faces (computed from the formula).
    const { surfaceNeeded } = taken(warmingOutlook(section(), rising, to(110), found));
    const rise = surfaceNeeded! / 1000 - 110;
    expect(rise).toBeCloseTo((240 * 90 * 0.06) / (54 - 0.0333 * (110 + rise / 2)), 2);
    expect(taken(warmingOutlook(section(), rising, to(110)))).not.toHaveProperty('surfaceNeeded');
  });
});

test.each([
  [held, to(Number.NaN), 'not a number'],
  [held, to(150, -1), 'not a number'],
  [held, to(700), 'above the range of the properties'],
  [{ kind: 'rising', kelvinPerMinute: Number.NaN }, to(150), 'not a number'],
  [{ kind: 'rising', kelvinPerMinute: 5, toCelsius: 900 }, to(150), 'above the range of the properties'],
] as [FaceCourse, WarmingTarget, string][])('%o to %o is refused: %s', (course, target, refused) => {
  expect(warmingOutlook(steelSection(100), course, target)).toMatchObject({ refused });
});
