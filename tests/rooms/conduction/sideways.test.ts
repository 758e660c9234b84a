/**
 * Heat that runs sideways out of the band: against the closed form for a constant heater, and the section as a whole
 * against a plate in two dimensions that shares nothing with it (the emulated part).
 */
import { describe, expect, it, test } from 'vitest';
import { createPart, stillAir, usualPart } from '../../../firmware-protocol/emulator/part.ts';
import { warmingPlan } from '../../../server/conduction/plan.ts';
import {
  copySection,
  driveSection,
  farFaceBetween,
  type Section,
  sectionNow,
} from '../../../server/conduction/section.ts';
import { createSideways, stepSideways } from '../../../server/conduction/sideways.ts';
import { carbonSteel } from '../../../server/conduction/steel/carbon.ts';
import { diffusivityAt } from '../../../server/conduction/steel/steel.ts';
import { type WarmingOutlook, warmingOutlook } from '../../../server/conduction/warming.ts';
import { milliCelsius } from '../../../server/measure/quantity.ts';
import { second, steelSection, taken } from '../../support/driven-wall.ts';
import { unchanging } from '../../support/plain-wall.ts';

/** erf by its series; exact enough below 3. */
const erf = (x: number): number => {
  let term = x;
  let sum = x;
  for (let n = 1; n < 80; n += 1) {
    term *= (-x * x) / n;
    sum += term / (2 * n + 1);
  }
  return x > 3.5 ? 1 : (2 / Math.sqrt(Math.PI)) * sum;
};

describe('a constant heater: the share that stays is (erf((w - x) / 2 sqrt(a t)) + erf((w + x) / 2 sqrt(a t))) / 2', () => {
  const steel = unchanging(50, 8000, 500);
  const diffusivity = diffusivityAt(steel, 20);
  const [w, x] = [0.22, 0.09];
  const share = (seconds: number): number => {
    const spread = 2 * Math.sqrt(diffusivity * seconds);
    return (erf((w - x) / spread) + erf((w + x) / spread)) / 2;
  };
  test.each([900, 1800, 3600, 7200])('after %d s', (until) => {
    const band = { halfWidthMillimetres: 220, distanceMillimetres: 90 };
    // So deep that the air takes nothing.
    const sideways = createSideways(band, steel, 1e9, { celsius: 20, ambientCelsius: 20 });
    const put = 0.02;
    let mean = 20;
    for (let at = 5; at <= until; at += 5) {
      mean += 5 * put * share(at - 2.5);
      stepSideways(sideways, 5, mean);
    }
    // Within 2 % of what the heater puts in.
    expect(Math.abs(sideways.leaving - put * (1 - share(until)))).toBeLessThan(0.02 * put);
  });
});

describe.each([
  [80, 220, 90, 10_200],
  [80, 400, 90, 10_200],
  [40, 120, 45, 6_000],
  [120, 300, 130, 12_000],
])('a plate of %d mm, heated over %d mm, measured at %d mm', (thickness, band, distance, power) => {
  const part = createPart({
    ...usualPart,
    thicknessMillimetres: thickness,
    bandMillimetres: band,
    controlMillimetres: distance,
    heaterWattsPerSquareMetre: power,
    frontLoss: stillAir,
    backLoss: stillAir,
  });
  const section = steelSection(thickness, {
    far: 'still air',
    band: { halfWidthMillimetres: band, distanceMillimetres: distance },
  });
  const seen: { at: number; truth: number; section: Section }[] = [];
  part.heater({ on: true, setPointCelsius: 160 });
  for (let at = 5; at <= 5 * 3600; at += 5) {
    if (at === 4 * 3600) part.heater({ on: false, setPointCelsius: 20 });
    part.advance(5);
    driveSection(section, second(at), milliCelsius(part.celsiusAt(0, distance)));
    if (at % 600 === 0) seen.push({ at, truth: part.celsiusAt(1, distance), section: copySection(section) });
  }

  it('has its far face between the ends while it is heated, held and left', () => {
    for (const { at, truth, section } of seen) {
      const { low, high } = farFaceBetween(sectionNow(section));
      expect(low / 1000, `low at ${at} s`).toBeLessThanOrEqual(truth);
      expect(high / 1000, `high at ${at} s`).toBeGreaterThanOrEqual(truth);
    }
  });

  it('has it near the likely value', () => {
    for (const { at, truth, section } of seen)
      expect(Math.abs(farFaceBetween(sectionNow(section)).likely / 1000 - truth), `at ${at} s`).toBeLessThan(2);
  });
});

test('without a band nothing leaves', () => {
  const section = steelSection(80);
  driveSection(section, second(60), milliCelsius(40));
  expect(section.sideways).toBeUndefined();
  expect(section.coldSlow.field.sideways).toBe(0);
});

test('what is forecast while the heater holds is what comes, in a plate in two dimensions', () => {
  const [thickness, band, distance, setPoint, minimum] = [80, 300, 90, 160, 150];
  const heaterWattsPerSquareMetre = 40_000;
  const part = createPart({
    ...usualPart,
    thicknessMillimetres: thickness,
    bandMillimetres: band,
    controlMillimetres: distance,
    heaterWattsPerSquareMetre,
    frontLoss: stillAir,
    backLoss: stillAir,
  });
  const section = steelSection(thickness, {
    far: 'still air',
    band: { halfWidthMillimetres: band, distanceMillimetres: distance },
  });
  part.heater({ on: true, setPointCelsius: setPoint });
  let asked: { at: number; outlook: WarmingOutlook } | undefined;
  let came: number | undefined;
  for (let at = 5; came === undefined; at += 5) {
    part.advance(5);
    const face = part.celsiusAt(0, distance);
    driveSection(section, second(at), milliCelsius(face));
    if (asked === undefined && face > setPoint - 0.5) {
      const target = { celsius: minimum, holdMilliseconds: 0 };
      asked = { at, outlook: taken(warmingOutlook(sectionNow(section), { kind: 'held' }, target)) };
    }
    if (asked !== undefined && part.celsiusAt(1, distance) >= minimum) came = at - asked.at;
  }
  const { earliest, latest, likely } = asked!.outlook;
  expect(earliest).toBeLessThanOrEqual(came * 1000);
  expect(latest ?? Number.POSITIVE_INFINITY).toBeGreaterThanOrEqual(came * 1000);
  expect(likely).toBeGreaterThan(came * 500);
  expect(came).toBeGreaterThan(60);
});

test('a plan for a band takes longer than one for a furnace', () => {
  const heating = {
    shape: { kind: 'plate', thicknessMillimetres: 80 },
    steel: carbonSteel,
    far: 'still air',
    ambientCelsius: 20,
    minimumCelsius: 145,
    holdMinutes: 0,
    rampKelvinPerHour: 150,
    setPointCelsius: 165,
  } as const;
  const furnace = taken(warmingPlan(heating)).ready;
  const pads = taken(warmingPlan({ ...heating, band: { halfWidthMillimetres: 300, distanceMillimetres: 90 } })).ready;
  expect(pads.likely).toBeGreaterThan(furnace.likely! + 60_000);
});
