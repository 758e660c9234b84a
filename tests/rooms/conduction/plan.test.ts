/** What a heating will take, before it begins. */
import { describe, expect, it, test } from 'vitest';
import { type Heating, warmingPlan } from '../../../server/conduction/plan.ts';
import { carbonSteel } from '../../../server/conduction/steel/carbon.ts';
import { heatAt } from '../../../server/conduction/steel/steel.ts';
import { taken } from '../../support/driven-wall.ts';
import { plainDiffusivity, plainSteel } from '../../support/plain-wall.ts';

const heating = (thicknessMillimetres: number, more: Partial<Heating> = {}): Heating => ({
  shape: { kind: 'plate', thicknessMillimetres },
  steel: carbonSteel,
  far: 'still air',
  ambientCelsius: 20,
  minimumCelsius: 150,
  holdMinutes: 0,
  rampKelvinPerHour: 300,
  setPointCelsius: 160,
  ...more,
});
const plan = (thickness: number, more: Partial<Heating> = {}) => taken(warmingPlan(heating(thickness, more)));
const oneSteel = { ...carbonSteel, diffusivityBand: 0 };

describe('a surface from 20 to 160 degrees', () => {
  // Computed with another solver of the same equations for EN 1993-1-2 steel, printed to 0.1: the coldest point when the
  // ramp ends, and minutes from then until 150 degrees. Its ramp ended within one step of its own. Draught, still air, insulated.
  test.each([
    [50, 1000, 130.1, 132.0, 133.2, 2.2, 1.7, 1.4],
    [100, 100, 140.9, 145.4, 148.8, 13.8, 3.3, 0.8],
    [100, 300, 122.5, 125.7, 128.0, 19.3, 8.9, 6.7],
    [150, 300, 92.9, 95.4, 97.1, undefined, 32.2, 23.1],
    [200, 300, 67.6, 69.3, 70.2, undefined, 76.8, 48.5],
  ])('%d mm at %d K/h', (thickness, rampKelvinPerHour, low, likely, high, latest, middle, earliest) => {
    const { rampEnds, coldestThen, ready } = plan(thickness, { rampKelvinPerHour, steel: oneSteel, far: 'unknown' });
    expect(rampEnds).toBe(Math.round((140 / rampKelvinPerHour) * 3_600_000));
    for (const [found, printed] of [
      [coldestThen.low, low],
      [coldestThen.likely, likely],
      [coldestThen.high, high],
    ] as const) {
      expect(Math.abs(found / 1000 - printed)).toBeLessThan(0.1 + rampKelvinPerHour / 3600);
    }
    const minutesOn = (at: number | undefined) => (at === undefined ? undefined : (at - rampEnds) / 60_000);
    for (const [found, printed] of [
      [minutesOn(ready.earliest), earliest],
      [minutesOn(ready.likely), middle],
      [minutesOn(ready.latest), latest],
    ] as const) {
      if (printed === undefined) expect(found).toBeUndefined();
      else expect(Math.abs(found! - printed)).toBeLessThan(0.1 + 0.02 * printed);
    }
  });

  it('the time to hold comes on top', () => {
    expect(plan(100, { holdMinutes: 30 }).ready.likely! - plan(100).ready.likely!).toBeCloseTo(1_800_000, -4);
  });
});

describe('the power that goes into the steel', () => {
  it('while the surface rises evenly is what stores that rise in the whole wall, the far face insulated', () => {
    // Computed from the formula: q = rho c L b when settled, and b L^2 / (3 a) behind in the mean. 200 K/h, 100 mm.
    const rate = 200 / 3600;
    const { ramping, rampEnds } = plan(100, { steel: plainSteel, far: 'insulated', rampKelvinPerHour: 200 });
    const settled = 8000 * 500 * 0.1 * rate;
    expect(Math.abs(ramping.peak.likely / settled - 1)).toBeLessThan(0.002);
    const behind = (rate * 0.1 * 0.1) / (3 * plainDiffusivity);
    const mean = (8000 * 500 * 0.1 * (140 - behind)) / (rampEnds / 1000);
    expect(Math.abs(ramping.mean.likely / mean - 1)).toBeLessThan(0.002);
  });

  it('into a thin plate is what EN 1993-1-2 says it stores', () => {
    const { ramping, rampEnds } = plan(10, { far: 'insulated', rampKelvinPerHour: 300 });
    const stored = (heatAt(carbonSteel, 160) - heatAt(carbonSteel, 20)) * 0.01;
    expect(Math.abs((ramping.mean.likely * rampEnds) / 1000 / stored - 1)).toBeLessThan(0.003);
  });

  it('while it is held falls to what the far face gives away', () => {
    const { holding, ramping } = plan(25, { holdMinutes: 600, steel: oneSteel });
    // Still air: 6 (T - 20) and 0.8 of black radiation at the far face, which settles at 158.9 (computed, printed to 0.1).
    const away = 6 * 138.9 + 0.8 * 5.670374419e-8 * ((158.9 + 273.15) ** 4 - 293.15 ** 4);
    expect(Math.abs(holding.mean.likely / away - 1)).toBeLessThan(0.02);
    expect(holding.peak.likely).toBeLessThanOrEqual(ramping.peak.likely);
    expect(holding.peak.likely).toBeGreaterThan(2 * holding.mean.likely);
  });

  test.each(['insulated', 'still air', 'draught', 'unknown'] as const)(
    '%s: low, likely and high in this order',
    (far) => {
      const { ramping, holding } = plan(120, { far, holdMinutes: 30 });
      for (const { low, likely, high } of [ramping.peak, ramping.mean, holding.peak, holding.mean]) {
        expect(low).toBeGreaterThanOrEqual(0);
        expect(low).toBeLessThanOrEqual(likely);
        expect(likely).toBeLessThanOrEqual(high);
      }
    },
  );
});

test.each<[string, Partial<Heating>]>([
  ['not a number', { rampKelvinPerHour: Number.NaN }],
  ['heating not possible', { rampKelvinPerHour: 0 }],
  ['heating not possible', { rampKelvinPerHour: 1 }],
  ['heating not possible', { setPointCelsius: 20 }],
  ['heating not possible', { holdMinutes: -1 }],
  ['above the range of the properties', { setPointCelsius: 650 }],
  ['above the range of the properties', { minimumCelsius: 650 }],
  ['shape not possible', { shape: { kind: 'plate', thicknessMillimetres: 0 } }],
  ['far side not judged', { far: 'colder mass or fluid' }],
])('%s: %o', (refused, more) => expect(warmingPlan(heating(100, more))).toMatchObject({ refused }));

it('is plain numbers also for a ramp that is no ramp', () => {
  const made = plan(300, { rampKelvinPerHour: 1e15 });
  expect(JSON.stringify(made)).not.toMatch(/null|NaN/);
});
