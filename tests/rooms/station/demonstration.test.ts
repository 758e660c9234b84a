/**
 * What the demonstration is there to show: measured faces that have been hot for as long as the hold by time asks, and
 * steel behind one of them that is not proven to be. The plates are the emulator's, in two dimensions; what is computed of them comes from the room
 * that judges, which shares nothing with the emulator.
 */
import { beforeAll, describe, expect, it } from 'vitest';
import type { Board } from '../../../firmware-protocol/emulator/board.ts';
import { isRefusal } from '../../../server/conduction/refusal.ts';
import {
  type Bounded,
  coldestBetween,
  createSection,
  driveSection,
  farFaceBetween,
  sectionNow,
} from '../../../server/conduction/section.ts';
import { carbonSteel } from '../../../server/conduction/steel/carbon.ts';
import type { Instant, MilliCelsius } from '../../../server/measure/quantity.ts';
import { history, readDemonstrationJoint } from '../../../server/station/demonstration.ts';
import { setPointOf } from '../../../server/station/follow-acts.ts';
import { boardOf } from '../../../server/station/joint-board.ts';
import { type Joint, jointSchema } from '../../../server/weld/joint.ts';

const joint = readDemonstrationJoint(new URL('../../../demo-data/demonstration-joint.json', import.meta.url));
const minimum = 145;
const stepSeconds = 5;

const celsius = (board: Board, of: Joint, probe: string): number =>
  board.celsius(of.probes.find(({ id }) => id === probe)!.channel);

interface Minute {
  readonly minute: number;
  readonly probes: { readonly [probe: string]: number };
  readonly coldest: { readonly A: Bounded; readonly B: Bounded };
  readonly farB: Bounded;
}

/** A section of a plate as the judge makes it, with its probes. */
function section(farProbe: boolean) {
  const made = createSection(
    {
      shape: { kind: 'plate', thicknessMillimetres: 80 },
      steel: carbonSteel,
      far: 'still air',
      farProbe,
      ambientCelsius: joint.heating.airCelsius!,
      band: { halfWidthMillimetres: joint.heating.halfWidthMillimetres!, distanceMillimetres: 90 },
    },
    { at: 0 as Instant, faceCelsius: 20, inside: 'not known' },
  );
  if (isRefusal(made)) throw new Error(made.because);
  return made;
}

function played(minutes: number): Minute[] {
  const board = boardOf(joint, stepSeconds * 1000);
  const [a, b] = [section(true), section(false)];
  const milli = (probe: string): MilliCelsius => Math.round(celsius(board, joint, probe) * 1000) as MilliCelsius;
  const course: Minute[] = [];
  for (let second = stepSeconds; second <= minutes * 60; second += stepSeconds) {
    if (second === history.heatAfterMinutes * 60) board.heater({ on: true, setPointCelsius: setPointOf(joint) });
    board.advance(stepSeconds * 1000);
    expect(driveSection(a, (second * 1000) as Instant, milli('zone A'), milli('far A'))).toBeUndefined();
    expect(driveSection(b, (second * 1000) as Instant, milli('zone B'))).toBeUndefined();
    if (second % 60 !== 0) continue;
    course.push({
      minute: second / 60,
      probes: Object.fromEntries(joint.probes.map(({ id }) => [id, celsius(board, joint, id)])),
      coldest: { A: coldestBetween(sectionNow(a)), B: coldestBetween(sectionNow(b)) },
      farB: farFaceBetween(sectionNow(b)),
    });
  }
  return course;
}

describe('the demonstration', () => {
  let course: Minute[] = [];
  beforeAll(() => {
    course = played(history.minutes + 30);
  }, 60_000);
  const at = (minute: number): Minute => course[minute - 1]!;

  it('ends its history with the measured faces held by time, and the plate that is measured on one face not proven', () => {
    const end = at(history.minutes);
    for (const face of ['zone A', 'zone B']) {
      expect(at(history.minutes - 9).probes[face]).toBeGreaterThan(minimum);
      expect(end.probes[face]! - at(history.minutes - 25).probes[face]!).toBeGreaterThan(10);
    }
    expect(at(history.minutes - joint.procedure!.soakHoldMinutes!).probes['far A']).toBeGreaterThan(minimum);
    expect(end.coldest.B.low).toBeLessThan(minimum * 1000);
    expect(end.coldest.B.low).toBeGreaterThan(at(history.minutes - 3).coldest.B.low);
    // The limits of its procedure.
    expect(Math.abs(end.probes['zone A']! - end.probes['zone B']!)).toBeLessThan(40);
    expect(Math.max(...Object.values(end.probes))).toBeLessThan(300);
  });

  it('comes to the minimum all through two to four minutes later, also at worst, and stays there', () => {
    const through = course.find(({ coldest }) => Math.min(coldest.A.low, coldest.B.low) >= minimum * 1000)!;
    expect(through.minute - history.minutes).toBeGreaterThanOrEqual(2);
    expect(through.minute - history.minutes).toBeLessThanOrEqual(4);
    for (const { coldest } of course.slice(through.minute)) {
      expect(Math.min(coldest.A.low, coldest.B.low)).toBeGreaterThanOrEqual(minimum * 1000);
    }
  });

  it('has its spare probe on the far face within what is computed there, all the while', () => {
    for (const { minute, probes, farB } of course.slice(history.heatAfterMinutes)) {
      expect(probes['far B']! * 1000, `minute ${minute}`).toBeGreaterThanOrEqual(farB.low);
      expect(probes['far B']! * 1000, `minute ${minute}`).toBeLessThanOrEqual(farB.high);
    }
  });
});

describe('the board of a joint', () => {
  const changed = (change: (joint: Joint) => unknown): Joint => jointSchema.parse(change(joint));
  const heated = (of: Joint, minutes = 10): Board => {
    const board = boardOf(of);
    board.heater({ on: true, setPointCelsius: 300 });
    board.advance(minutes * 60_000);
    return board;
  };

  it('has each junction on its face, the heated one warmer, whichever that is', () => {
    const front = heated(joint);
    const back = heated(changed(({ heating, ...rest }) => ({ ...rest, heating: { ...heating, face: 'back' } })));
    const both = heated(changed(({ heating, ...rest }) => ({ ...rest, heating: { ...heating, face: 'both' } })));
    for (const side of ['A', 'B']) {
      const rise = (board: Board): number =>
        celsius(board, joint, `zone ${side}`) - celsius(board, joint, `far ${side}`);
      expect(rise(front)).toBeGreaterThan(5);
      expect(rise(back)).toBeLessThan(-5);
      expect(Math.abs(rise(both))).toBeLessThan(1);
    }
  });

  it('has each junction on its plate: the thinner one warms faster', () => {
    const uneven = changed(({ parts, ...rest }) => ({
      ...rest,
      parts: parts.map((part) => ({ ...part, thicknessMillimetres: part.id === 'plate A' ? 40 : 80 })),
    }));
    const board = heated(uneven);
    expect(celsius(board, uneven, 'far A')).toBeGreaterThan(celsius(board, uneven, 'far B') + 20);
    expect(celsius(board, uneven, 'air')).toBeCloseTo(20, 6);
  });

  it('loses behind its plates as the joint says', () => {
    const behind = (farSide: 'insulated' | 'draught' | 'colder mass or fluid'): number => {
      const of = changed(({ parts, ...rest }) => ({ ...rest, parts: parts.map((part) => ({ ...part, farSide })) }));
      return celsius(heated(of, 40), of, 'far A');
    };
    expect(behind('insulated')).toBeGreaterThan(behind('draught') + 1);
    expect(behind('draught')).toBeGreaterThan(behind('colder mass or fluid') + 10);
  });
});
