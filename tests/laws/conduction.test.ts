/**
 * Laws of heat in a wall: no temperature leaves the range of start and driving; what is alike on both sides stays
 * alike; a finer grid comes closer by the square; where a run is split changes nothing, to the last bit.
 */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { coldestOf, copyField, createField, held, hottestOf, losing } from '../../server/conduction/field.ts';
import { lossCasesOf } from '../../server/conduction/loss.ts';
import type { Shape } from '../../server/conduction/shape.ts';
import { steels } from '../../server/conduction/steel/list.ts';
import { step } from '../../server/conduction/step.ts';
import { timeConstantOf } from '../../server/conduction/time-constant.ts';
import { drive, presentOf, type Wall } from '../../server/conduction/wall.ts';
import { warmingOutlook } from '../../server/conduction/warming.ts';
import { milliCelsius } from '../../server/measure/quantity.ts';
import { second, steelSection, steelWall, taken } from '../support/driven-wall.ts';
import { plainDepth, plainField, run, secondsOf } from '../support/plain-wall.ts';

// One seed, so that every run tries the same cases.
fc.configureGlobal({ seed: 20_011 });

const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const degrees = between(-20, 600);
const shapes: fc.Arbitrary<Shape> = fc.oneof(
  between(5, 300).map((thicknessMillimetres): Shape => ({ kind: 'plate', thicknessMillimetres })),
  between(5, 300).map((diameterMillimetres): Shape => ({ kind: 'bar', diameterMillimetres })),
  fc.record({
    kind: fc.constant('tube' as const),
    front: fc.constantFrom('outside', 'inside'),
    thicknessMillimetres: between(5, 90),
    outsideDiameterMillimetres: between(200, 2000),
  }),
);
/** Steps of any length, jumps of any height, on both faces or on one. */
const steps = fc.array(fc.record({ seconds: between(0.1, 900), front: degrees, back: fc.option(degrees) }), {
  minLength: 1,
  maxLength: 25,
});

test('temperatures stay between the extremes of boundary and start, whatever the steps and jumps', () => {
  fc.assert(
    fc.property(
      fc.constantFrom(...Object.values(steels)),
      between(0.005, 0.3),
      fc.constantFrom(0, -0.9, 3),
      degrees,
      degrees,
      between(0, 200),
      steps,
      (steel, depth, bend, first, last, convection, taken) => {
        const field = createField({ steel, depth, taper: bend / depth, cells: 40 }, first, last);
        let lowest = Math.min(first, last, 20);
        let highest = Math.max(first, last, 20);
        for (const { seconds, front, back } of taken) {
          lowest = Math.min(lowest, front, back ?? lowest);
          highest = Math.max(highest, front, back ?? highest);
          step(field, seconds, held(front), back === null ? losing(20, convection, 0.8) : held(back));
          expect(coldestOf(field)).toBeGreaterThanOrEqual(lowest - 1e-6);
          expect(hottestOf(field)).toBeLessThanOrEqual(highest + 1e-6);
        }
      },
    ),
    { numRuns: 300 },
  );
});

test('a plate that is driven alike on both faces is alike on both sides of its middle', () => {
  fc.assert(
    fc.property(
      fc.constantFrom(...Object.values(steels)),
      between(0.005, 0.3),
      degrees,
      steps,
      (steel, depth, start, taken) => {
        const field = createField({ steel, depth, taper: 0, cells: 40 }, start);
        for (const { seconds, front } of taken) step(field, seconds, held(front), held(front));
        for (let cell = 0; cell < 20; cell += 1) {
          expect(Math.abs(field.celsius[cell]! - field.celsius[39 - cell]!)).toBeLessThan(1e-7);
        }
      },
    ),
  );
});

test('a grid twice as fine is at least four times as close (second order or better), for one face stepped, ramped, and with loss', () => {
  // Series of the back face: Fo 0.3 after a step 0.6068038172, Fo 0.5 in a ramp 0.1502727352 (computed from the series).
  const cases = [
    (cells: number) => run(plainField(100, { cells }), secondsOf(0.3), 4000, held(0)).backCelsius - 60.68038172,
    (cells: number) =>
      run(plainField(0, { cells }), secondsOf(0.5), 4000, (at) => held((100 * at) / secondsOf(1))).backCelsius -
      15.02727352,
    // Centre at Bi 1, Fo 0.5: 0.7725263834.
    (cells: number) =>
      run(plainField(100, { cells }), secondsOf(0.5), 4000, losing(0, 50 / plainDepth, 0)).backCelsius - 77.25263834,
  ];
  for (const error of cases) {
    const [coarse, fine] = [error(10), error(20)];
    expect(Math.abs(coarse)).toBeLessThan(0.5);
    expect(coarse / fine).toBeGreaterThan(4);
  }
});

test('the series of a stepped face (Carslaw and Jaeger) is met at any time from Fourier number 0.05 on', () => {
  const exact = (fourier: number) => {
    let sum = 0;
    for (let n = 1; n <= 40; n += 1) {
      const root = (n - 0.5) * Math.PI;
      sum += (2 / root) * (n % 2 === 1 ? 1 : -1) * Math.exp(-root * root * fourier);
    }
    return 100 * sum;
  };
  fc.assert(
    fc.property(between(0.05, 2), (fourier) => {
      const found = run(plainField(100), secondsOf(fourier), 400, held(0)).backCelsius;
      expect(Math.abs(found - exact(fourier))).toBeLessThan(0.02);
    }),
    { numRuns: 40 },
  );
});

/** Readings at uneven times, each face with gaps. */
const log = fc.array(
  fc.record({
    after: fc.integer({ min: 100, max: 20_000 }),
    front: fc.option(between(20, 60), { freq: 8 }),
    back: fc.option(between(20, 60)),
    air: fc.option(between(-20, 40), { freq: 1 }),
  }),
  { minLength: 2, maxLength: 120 },
);

test('where a run is split and carried on from a copy changes nothing, to the last bit', () => {
  fc.assert(
    fc.property(shapes, log, between(0, 1), fc.boolean(), (shape, readings, share, throughJson) => {
      const made = () => steelWall(50, { shape, loss: { convection: 6, emissivity: 0.8 } });
      const split = Math.floor(share * readings.length);
      let at = 0;
      const take = (wall: Wall, { after, front, back, air }: (typeof readings)[number]) => {
        at += after;
        const milli = (celsius: number | null) => (celsius === null ? undefined : milliCelsius(celsius));
        return drive(wall, second(at / 1000), milli(front), milli(back), air ?? undefined);
      };
      const whole = made();
      const said = readings.map((each) => take(whole, each)?.refused);
      at = 0;
      let part = made();
      const saidInParts = readings.map((each, index) => {
        if (index === split) {
          presentOf(part);
          part = throughJson ? (JSON.parse(JSON.stringify(part)) as Wall) : structuredClone(part);
        }
        return take(part, each)?.refused;
      });
      expect(saidInParts).toEqual(said);
      expect(JSON.stringify(part)).toBe(JSON.stringify(whole));
      expect(part.field.celsius.every(Number.isFinite)).toBe(true);
    }),
    { numRuns: 200 },
  );
});

test('a wall of any steel and loss within what is not known is ready between earliest and latest', () => {
  fc.assert(
    fc.property(
      shapes,
      fc.constantFrom(...Object.values(steels)),
      fc.constantFrom('insulated' as const, 'still air' as const, 'draught' as const, 'unknown' as const),
      between(0, 1),
      between(-1, 1),
      between(1, 20),
      between(110, 250),
      between(0.3, 0.95),
      (shape, steel, far, lossShare, bandShare, kelvinPerMinute, toCelsius, targetShare) => {
        const section = steelSection(50, { shape, steel, far });
        const celsius = 20 + targetShare * (toCelsius - 20);
        const course = { kind: 'rising', kelvinPerMinute, toCelsius } as const;
        const { earliest, likely, latest } = taken(warmingOutlook(section, course, { celsius, holdMilliseconds: 0 }));
        const { best, worst } = lossCasesOf(far)!;
        const part = (from: number, to: number) => from + lossShare * (to - from);
        const loss = {
          convection: part(best.convection, worst.convection),
          emissivity: part(best.emissivity, worst.emissivity),
        };
        const wall = steelWall(50, { shape, steel, loss, conductivityFactor: 1 + bandShare * steel.diffusivityBand });
        const ready = readyStepped(wall, celsius, (at) => Math.min(toCelsius, 20 + (kelvinPerMinute * at) / 60));
        const second = 1000;
        if (ready !== undefined) expect(earliest).toBeLessThanOrEqual(ready * second + 2 * second);
        if (latest !== undefined) expect(ready! * second).toBeLessThanOrEqual(latest * 1.005 + 2 * second);
        if (earliest === undefined) expect(ready).toBeUndefined();
        expect(earliest ?? 0).toBeLessThanOrEqual(likely ?? Number.POSITIVE_INFINITY);
        expect(likely ?? 0).toBeLessThanOrEqual(latest ?? Number.POSITIVE_INFINITY);
      },
    ),
    { numRuns: 60 },
  );
});

/** Seconds until the coldest point is there, in even steps of a hundredth of the time constant; undefined within 12 of them. */
function readyStepped(wall: Wall, celsius: number, front: (at: number) => number): number | undefined {
  const { loss } = wall.spec;
  const field = copyField(wall.field);
  const seconds = Math.max(1, timeConstantOf(wall) / 100_000);
  for (let at = seconds; ; at += seconds) {
    const before = coldestOf(field);
    step(field, seconds, held(front(at)), losing(20, loss.convection, loss.emissivity));
    const coldest = coldestOf(field);
    if (coldest >= celsius) return at - (seconds * (coldest - celsius)) / (coldest - before);
    if (at > 14_400 + (12 * timeConstantOf(wall)) / 1000) return undefined;
  }
}
