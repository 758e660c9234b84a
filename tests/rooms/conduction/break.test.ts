/** How long a break may last before the wall is too cold. */
import { readFileSync } from 'node:fs';
import { describe, expect, it, test } from 'vitest';
import { follow } from '../../../server/conduction/ahead.ts';
import { coolingOutlook } from '../../../server/conduction/break.ts';
import { insulated, losing } from '../../../server/conduction/field.ts';
import { coolingCases, type FarCondition, type Loss, lossCasesOf } from '../../../server/conduction/loss.ts';
import { type Section, sectionNow } from '../../../server/conduction/section.ts';
import { carbonSteel } from '../../../server/conduction/steel/carbon.ts';
import { capacityAt } from '../../../server/conduction/steel/steel.ts';
import { driven, everySecond, rampTo, steelSection, steelWall, taken } from '../../support/driven-wall.ts';
import { plainSteel } from '../../support/plain-wall.ts';

const outlook = (now: Section, above: number) => taken(coolingOutlook(now, above));
/** Warm all through, the same everywhere. */
const warm = (thickness: number, celsius: number, far: FarCondition = 'still air', ambientCelsius = 20) =>
  steelSection(
    thickness,
    { far, ambientCelsius, steel: { ...carbonSteel, diffusivityBand: 0 } },
    { faceCelsius: celsius },
  );

/** W/m2 given away by a face at that temperature in surroundings of 20 degrees, Stefan and Boltzmann's law. */
const given = ({ convection, emissivity }: Loss, celsius: number): number =>
  convection * (celsius - 20) + emissivity * 5.670374419e-8 * ((celsius + 273.15) ** 4 - 293.15 ** 4);

/** Seconds in which a thin plate, even through its thickness, falls to that temperature (computed from the formula). */
function lumped(thickness: number, from: number, to: number, front: Loss, back: Loss): number {
  let at = 0;
  for (let celsius = from - 0.005; celsius > to; celsius -= 0.01) {
    at +=
      (0.01 * capacityAt(carbonSteel, celsius) * (thickness / 1000)) / (given(front, celsius) + given(back, celsius));
  }
  return at;
}

describe('a thin plate cools as one lump', () => {
  test.each([
    [10, 150, 100],
    [12, 250, 110],
    [6, 400, 60],
  ])('%d mm from %d to %d degrees', (thickness, from, to) => {
    const found = outlook(warm(thickness, from), to);
    const far = lossCasesOf('still air')!;
    for (const [name, end] of [
      ['earliest', 'worst'],
      ['likely', 'likely'],
      ['latest', 'best'],
    ] as const) {
      const expected = lumped(thickness, from, to, coolingCases[end], far[end]);
      expect(Math.abs(found[name]! / 1000 / expected - 1), name).toBeLessThan(0.01);
    }
  });
});

describe('loss by convection alone, Biot number 0.1', () => {
  // Computed from the series; the half of a plate that cools on both sides.
  const { convection } = JSON.parse(
    readFileSync(new URL('../../published/heat-through-a-wall.json', import.meta.url), 'utf8'),
  ) as { convection: { rows: { Bi: number; Fo: number; v: [number, number, number] }[] } };
  const rows = convection.rows.filter(({ Bi }) => Bi === 0.1);
  test.each(rows)('Fo $Fo: the face has then what the series says', ({ Bi, Fo, v }) => {
    const wall = steelWall(100, { start: 100, steel: plainSteel });
    const until = (Fo * 0.1 * 0.1) / 12.5e-6;
    const film = losing(0, (Bi * 50) / 0.1, 0);
    let face = Number.NaN;
    follow(wall, { front: () => film, back: insulated, bends: [], until }, (_at, field) => {
      face = field.frontCelsius;
      return false;
    });
    expect(Math.abs(face - 100 * v[2])).toBeLessThan(0.05);
  });
  it('has rows to look at', () => expect(rows.length).toBeGreaterThan(5));
});

test.each(['insulated', 'still air', 'draught', 'unknown'] as const)(
  '%s: earliest, likely and latest in this order',
  (far) => {
    const section = driven(steelSection(80, { far }), everySecond(0, 1500), rampTo(200, 600));
    const { earliest, likely, latest } = outlook(sectionNow(section), 110);
    expect(earliest).toBeGreaterThan(0);
    expect(earliest).toBeLessThan(likely!);
    expect(likely).toBeLessThan(latest!);
  },
);

it('a wall that is warmest at its face evens out first: the break is longer than of one as cold all through as its coldest point', () => {
  const section = driven(steelSection(100), everySecond(0, 1500), rampTo(200, 600));
  const now = sectionNow(section);
  const coldest = now.likely.field.backCelsius;
  expect(outlook(now, coldest - 1).likely).toBeGreaterThan(3 * outlook(warm(100, coldest), coldest - 1).likely!);
});

it('is 0 where it is below already, and not told beyond 48 hours', () => {
  expect(outlook(warm(50, 100), 110)).toMatchObject({ earliest: 0, likely: 0, latest: 0 });
  expect(outlook(warm(300, 200, 'insulated'), 20.5)).toEqual({ within: 48 * 3_600_000 });
  expect(outlook(warm(50, 100, 'still air', 60), 55)).toEqual({ within: 48 * 3_600_000 });
});

it('what can not be told is refused by its name', () => {
  expect(coolingOutlook(warm(50, 100), Number.NaN)).toMatchObject({ refused: 'not a number' });
  const mass = steelSection(50, { far: 'colder mass or fluid', farProbe: true });
  expect(coolingOutlook(mass, 100)).toMatchObject({ refused: 'far side not judged' });
});

it('behind a mass of which probes found what it takes is told after all', () => {
  const mass = steelSection(50, { far: 'colder mass or fluid', farProbe: true }, { faceCelsius: 150 });
  const { earliest, likely, latest } = taken(coolingOutlook(mass, 100, { coefficient: 300, uncertainty: 60 }));
  expect(earliest).toBeGreaterThan(0);
  expect(earliest).toBeLessThan(likely!);
  expect(likely).toBeLessThan(latest!);
});
