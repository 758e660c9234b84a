/**
 * Heat through walls: what a step costs for each of its cells, against solving a bare tridiagonal system of the same
 * size; and a day of eight sections that read once a second, with all of their bounds. The title says how far the
 * coldest point is off from stepping at every second; a test holds it.
 */
import { coldestOf, createField, held, losing } from '../../server/conduction/field.ts';
import { driveSection, type Section, wallsOf } from '../../server/conduction/section.ts';
import { carbonSteel } from '../../server/conduction/steel/carbon.ts';
import { step } from '../../server/conduction/step.ts';
import { milliCelsius } from '../../server/measure/quantity.ts';
import { driven, everySecond, rampTo, second, steelSection } from '../support/driven-wall.ts';
import type { BenchSet } from './bench.ts';

const cells = 40;
const stepsPerRun = 500;
const daySeconds = 24 * 3600;
const thicknesses = [20, 30, 40, 50, 75, 100, 150, 200];

export async function prepareBench(): Promise<BenchSet> {
  const air = losing(20, 25, 0.9);
  let seen = 0;
  return {
    title: `Heat through walls of ${cells} cells; ${errorAtVerdict().toFixed(3)} K off at the verdict`,
    unit: 'cell-steps',
    baseline: {
      name: 'a bare tridiagonal solve',
      amount: cells * stepsPerRun,
      run: () => {
        seen += tridiagonal(stepsPerRun);
      },
    },
    rows: [
      {
        name: 'a step, the front ramped, the back losing',
        amount: cells * stepsPerRun,
        run: () => {
          const field = createField({ steel: carbonSteel, depth: 0.1, taper: 0, cells }, 20);
          for (let at = 1; at <= stepsPerRun; at += 1) step(field, 6, held(20 + 0.28 * at), air);
          seen += field.backCelsius;
        },
      },
      {
        name: 'a day of eight sections at 1 Hz, all bounds',
        amount: cells * stepsOfDay(),
        run: () => {
          for (const thickness of thicknesses) seen += day(steelSection(thickness, { far: 'unknown' }));
        },
        mostMilliseconds: 15_000,
      },
    ],
    close: () => {
      if (!(seen > 0)) throw new Error('nothing was computed');
    },
  };
}

/** A day in the shop: up at 100 K/h, held by a heater that switches, and left for the night. */
function day(section: Section): number {
  for (let at = 1; at <= daySeconds; at += 1) {
    const front = at < 50_000 ? rampTo(160, 100)(at) + (at % 60 < 30 ? 0.5 : -0.5) : 160 - (at - 50_000) / 300;
    if (driveSection(section, second(at), milliCelsius(front)) !== undefined) throw new Error('a reading was refused');
  }
  return coldestOf(section.coldSlow.field);
}

const stepsOfDay = (): number =>
  thicknesses
    .map((thickness) => Math.max(1000, steelSection(thickness).likely.stepMilliseconds))
    .reduce((sum, milliseconds) => sum + (5 * daySeconds * 1000) / (Math.ceil(milliseconds / 1000) * 1000), 0);

function errorAtVerdict(): number {
  const until = 1680 + 1140;
  const own = steelSection(100, { far: 'draught' });
  const fine = steelSection(100, { far: 'draught' });
  for (const section of [own, fine]) {
    for (const wall of wallsOf(section)) if (section === fine) Object.assign(wall, { stepMilliseconds: 1 });
    driven(section, everySecond(0, until), rampTo(160, 300));
  }
  return Math.max(
    ...wallsOf(own).map((wall, index) => Math.abs(coldestOf(wall.field) - coldestOf(wallsOf(fine)[index]!.field))),
  );
}

/** Elimination and nothing else; the numbers as of a step of a wall. */
function tridiagonal(rounds: number): number {
  const upper = new Float64Array(cells);
  const right = new Float64Array(cells);
  const solved = new Float64Array(cells).fill(1);
  for (let round = 0; round < rounds; round += 1) {
    let before = 0;
    let known = 0;
    for (let cell = 0; cell < cells; cell += 1) {
      const inverse = 1 / (2.5 - before);
      before = inverse;
      known = (0.5 * solved[cell]! + known) * inverse;
      upper[cell] = before;
      right[cell] = known;
    }
    for (let cell = cells - 2; cell >= 0; cell -= 1) solved[cell] = right[cell]! + upper[cell]! * solved[cell + 1]!;
  }
  return solved[0]!;
}
