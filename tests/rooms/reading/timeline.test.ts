import { describe, expect, it } from 'vitest';
import { limits } from '../../../server/measure/limits.ts';
import type { Instant } from '../../../server/measure/quantity.ts';
import { emptyTimeline, place, resumed, type Timeline } from '../../../server/reading/timeline.ts';

const t0 = 1_795_000_000_000;
const instant = (value: number): Instant => value as Instant;

/** Places frames given as [ticks, arrived after t0, resent] and tells measuredAt - t0 of each. */
const run = (
  frames: readonly (readonly [ticks: number, arrived: number, resent?: boolean])[],
  from: Timeline = emptyTimeline,
  boot = 1,
): { readonly measured: readonly number[]; readonly timeline: Timeline } => {
  let timeline = from;
  const measured = frames.map(([ticks, arrived, resent = false]) => {
    const placed = place(timeline, { board: 'b', boot, ticks, resent, arrivedAt: instant(t0 + arrived) });
    timeline = placed.timeline;
    return placed.measuredAt - t0;
  });
  return { measured, timeline };
};

describe('ticks on the time line', () => {
  it('are paired with the wall clock at first sight', () => {
    const { measured } = run([
      [5000, 0],
      [6000, 1000],
    ]);
    expect(measured).toEqual([0, 1000]);
  });

  it('keep the spacing of the board when the line stalls and comes in a burst', () => {
    const { measured } = run([
      [0, 0],
      [1000, 1000],
      [2000, 4200],
      [3000, 4200],
      [4000, 4200],
      [5000, 5000],
    ]);
    expect(measured).toEqual([0, 1000, 2000, 3000, 4000, 5000]);
  });

  it('never lie in the future: a first frame that was held up is made good at once', () => {
    const { measured } = run([
      [0, 900],
      [1000, 1100],
      [2000, 2050],
      [3000, 3050],
    ]);
    expect(measured).toEqual([900, 1100, 2050, 3050]);
  });

  it('follow a slow board clock by at most 1 % of the time passed', () => {
    // A board that counts 995 ticks in a second of ours, and one that counts 900: broken, and not believed in one go.
    const slow = (perSecond: number): number => {
      const frames = Array.from({ length: 601 }, (_, second) => [second * perSecond, second * 1000] as const);
      return 600_000 - run(frames).measured.at(-1)!;
    };
    expect(slow(995)).toBeLessThanOrEqual(200);
    expect(slow(995)).toBeGreaterThanOrEqual(0);
    expect(slow(900)).toBeGreaterThan(50_000);
  });

  it('follow a fast board clock without ever passing ours', () => {
    const frames = Array.from({ length: 601 }, (_, second) => [second * 1003, second * 1000] as const);
    const { measured } = run(frames);
    measured.forEach((at, second) => {
      expect(at).toBeLessThanOrEqual(second * 1000);
    });
    expect(measured.at(-1)).toBe(600_000);
  });

  it('go on through the wrap of a 32-bit counter', () => {
    const { measured } = run([
      [4_294_966_000, 0],
      [4_294_967_000, 1000],
      [704, 2000],
      [1704, 3000],
    ]);
    expect(measured).toEqual([0, 1000, 2000, 3000]);
  });

  it('wrap for lines sent again as well', () => {
    const { measured } = run([
      [4_294_965_296, 0],
      [4_294_966_296, 1000],
      [1000, 3000],
      [0, 3100, true],
    ]);
    expect(measured).toEqual([0, 1000, 3000, 2000]);
  });

  it('put lines sent again between their neighbours', () => {
    const { measured } = run([
      [0, 0],
      [1000, 1000],
      [2000, 2000],
      [9000, 9000],
      [3000, 9100, true],
      [4000, 9110, true],
      [8000, 9120, true],
      [10_000, 10_000],
    ]);
    expect(measured).toEqual([0, 1000, 2000, 9000, 3000, 4000, 8000, 10_000]);
  });

  it('find the place even where the pair was moved meanwhile', () => {
    // The first frame came 500 ms late, so ticks 0 to 2000 stand late; what was missed lies between, in order.
    const { measured } = run([
      [0, 500],
      [1000, 1500],
      [2000, 2500],
      [6000, 6000],
      [3000, 6100, true],
      [5000, 6100, true],
    ]);
    expect(measured.slice(0, 4)).toEqual([500, 1500, 2500, 6000]);
    expect(measured[4]).toBeGreaterThan(2500);
    expect(measured[5]).toBeGreaterThan(measured[4]!);
    expect(measured[5]).toBeLessThan(6000);
  });

  it('of a line sent again from an unknown gap are never after the newest', () => {
    const { measured } = run([
      [50_000, 0],
      [51_000, 1000],
      [49_000, 1100, true],
    ]);
    expect(measured).toEqual([0, 1000, -1000]);
  });

  it('begin anew with a new boot, and lines of the old boot still find their place', () => {
    const first = run([
      [900_000, 0],
      [901_000, 1000],
      [903_000, 3000],
    ]);
    const second = run([[200, 10_000]], first.timeline, 2);
    expect(second.measured).toEqual([10_000]);
    expect(run([[902_000, 10_100, true]], second.timeline, 1).measured).toEqual([2000]);
  });

  it('that fall far without being sent again begin anew: a board that cannot count its boots', () => {
    const { measured } = run([
      [900_000, 0],
      [901_000, 1000],
      [300, 5000],
      [1300, 6000],
    ]);
    expect(measured).toEqual([0, 1000, 5000, 6000]);
  });

  it('of a sample that a hello overtook do not begin anew', () => {
    const { measured } = run([
      [10_000, 0],
      [11_050, 1050],
      [11_000, 1060],
      [12_000, 2000],
    ]);
    expect(measured).toEqual([0, 1050, 1000, 2000]);
  });

  it('hold still while a wall clock is set back, rather than step back', () => {
    const { measured } = run([
      [0, 0],
      [1000, 1000],
      [2000, -3_600_000],
      [3000, 1500],
    ]);
    expect(measured).toEqual([0, 1000, 1000, 1500]);
  });

  it('are not disturbed by a frame that comes twice', () => {
    const { measured } = run([
      [0, 0],
      [1000, 1000],
      [1000, 1200],
      [2000, 2000],
    ]);
    expect(measured).toEqual([0, 1000, 1000, 2000]);
  });

  it('learn a changed period and stop counting each step as a gap', () => {
    const quick = Array.from({ length: 10 }, (_, step) => [step * 100, step * 100] as const);
    const slow = Array.from({ length: 60 }, (_, step) => [1000 + step * 5000, 1000 + step * 5000] as const);
    const { timeline } = run([...quick, ...slow]);
    expect(timeline.get('b')?.[0]?.gaps.length).toBeLessThan(25);
    expect(timeline.get('b')?.[0]?.step).toBe(5000);
  });
});

describe('after a restart', () => {
  const scan = { board: 'b', boot: 7, ticks: 60_000, measuredAt: instant(t0), arrivedAt: instant(t0 + 20) };

  it('the time line goes on by the ticks of a board that kept running', () => {
    const timeline = resumed(emptyTimeline, scan);
    // The host was away for a minute and its first line comes 300 ms late: the board's ticks tell the time.
    expect(run([[120_000, 60_300]], timeline, 7).measured).toEqual([60_000]);
  });

  it('the newest recorded scan counts, in whatever order they come', () => {
    const older = { ...scan, ticks: 50_000, measuredAt: instant(t0 - 9_000) };
    const a = resumed(resumed(emptyTimeline, older), scan);
    const b = resumed(resumed(emptyTimeline, scan), older);
    expect(a).toEqual(b);
    const oldBoot = { ...scan, boot: 6, measuredAt: instant(t0 - 99_000) };
    expect(
      resumed(a, oldBoot)
        .get('b')
        ?.map(({ boot }) => boot),
    ).toEqual([7, 6]);
    expect(
      resumed(resumed(emptyTimeline, oldBoot), scan)
        .get('b')
        ?.map(({ boot }) => boot),
    ).toEqual([7, 6]);
  });
});

describe('bounds of the time line', () => {
  it('keep the newest boards and two boots of each', () => {
    let timeline = emptyTimeline;
    for (let board = 0; board < limits.boardsMaximum + 5; board += 1) {
      for (let boot = 1; boot <= 4; boot += 1) {
        const frame = { board: `b${board}`, boot, ticks: 0, resent: false, arrivedAt: instant(t0 + board) };
        timeline = place(timeline, frame).timeline;
      }
    }
    expect(timeline.size).toBe(limits.boardsMaximum);
    expect(timeline.has('b4')).toBe(false);
    expect(timeline.get('b20')?.map(({ boot }) => boot)).toEqual([4, 3]);
  });

  it('keep the newest gaps', () => {
    const frames = Array.from(
      { length: 400 },
      (_, step) => [step * 1000 + Math.floor(step / 2) * 9000, step * 1000 + Math.floor(step / 2) * 9000] as const,
    );
    expect(run(frames).timeline.get('b')?.[0]?.gaps).toHaveLength(limits.gapsKept);
  });
});
