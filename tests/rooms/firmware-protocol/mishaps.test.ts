/** What holds for every mishap of an emulated board, and that a board in mishaps is a clean run with mishaps done to it. */
import { describe, expect, it } from 'vitest';
import { type BoardOptions, createBoard } from '../../../firmware-protocol/emulator/board.ts';
import { withMishaps } from '../../../firmware-protocol/emulator/mishaps/inject.ts';
import { kindsOfMishap, mishapProblem } from '../../../firmware-protocol/emulator/mishaps/list.ts';
import { type Mishap, mishapKinds } from '../../../firmware-protocol/emulator/mishaps/mishap.ts';
import { type Signals, sampleOf, sampleValue } from '../../../firmware-protocol/emulator/signal.ts';
import { lineOf, one, run } from './mishap-signals.ts';

describe('every mishap', () => {
  const course = run(
    60,
    (second) => ({ tip: 40 + second, heating: 0.7 }),
    (second) => second % 20 > 9,
  );
  const said = (kind: Mishap['kind'], channel: Mishap['channel'] = 2): Mishap => ({
    kind,
    channel,
    ...(kindsOfMishap[kind].asks === 'wire' ? { wire: 'J' } : {}),
    ...(kindsOfMishap[kind].asks === 'other' ? { other: 3 } : {}),
    fromSeconds: 11,
    untilSeconds: 41,
  });

  it.each(mishapKinds)('%s changes its own channel in its own time, and nothing else', (kind) => {
    const spoiled = withMishaps(course, [said(kind)]);
    expect(course).toEqual(
      run(
        60,
        (second) => ({ tip: 40 + second, heating: 0.7 }),
        (second) => second % 20 > 9,
      ),
    );
    const changed = spoiled.flatMap((now, second) =>
      JSON.stringify(now.channels[1]) === JSON.stringify(course[second]!.channels[1]) ? [] : [second],
    );
    // Some show only with an arc, some not at their first moment; swapped shows nowhere, since all channels are alike here.
    if (kind !== 'swapped') expect(changed.length).toBeGreaterThan(5);
    expect(Math.min(...changed, 11)).toBe(11);
    expect(Math.max(...changed, 40)).toBe(40);
    for (const [second, now] of spoiled.entries()) expect(now.channels[0]).toBe(course[second]!.channels[0]);
  });

  it.each(mishapKinds)(
    '%s is the same for the same seed, however the run is cut, and reaches all channels when asked',
    (kind) => {
      const mishap = kind === 'swapped' ? said(kind) : said(kind, 'all');
      const whole = withMishaps(course, [mishap], 5);
      expect(withMishaps(course, [mishap], 5)).toEqual(whole);
      const before = withMishaps(course.slice(0, 12), [mishap], 5);
      expect(before).toEqual(whole.slice(0, 12));
      for (const now of whole) for (const value of sampleOf(now, 0).values) expect(value).toHaveProperty('reading');
    },
  );

  it.each(mishapKinds)('%s says what it is, where it is from, and bounds that hold its usual severity', (kind) => {
    const { what, source, severity } = kindsOfMishap[kind];
    expect(what.length).toBeGreaterThan(20);
    expect(source.length).toBeGreaterThan(4);
    if (severity === undefined) {
      expect(mishapProblem({ ...said(kind), severity: 1 })).toContain('takes no severity');
      return;
    }
    expect(mishapProblem({ ...said(kind), severity: severity.usual })).toBeUndefined();
    expect(mishapProblem({ ...said(kind), severity: severity.highest * 1.01 + 1 })).toContain(severity.means);
    expect(mishapProblem({ ...said(kind), severity: Number.NaN })).toContain(severity.means);
  });

  it('refuses what cannot be', () => {
    expect(() => withMishaps(course, one('wrong-type'))).toThrow('asks which type the wire is');
    expect(() => withMishaps(course, one('stuck', { wire: 'J' }))).toThrow('takes no type of wire');
    expect(() => withMishaps(course, one('swapped'))).toThrow('asks for the other probe');
    expect(() => withMishaps(course, one('swapped', { other: 9 }))).toThrow('no channel 9');
    expect(() => withMishaps(course, one('open', { channel: 9 }))).toThrow('no channel 9');
    expect(mishapProblem(one('open', { untilSeconds: 0 })[0]!)).toContain('end after it has begun');
    expect(mishapProblem(one('open', { fromSeconds: -1 })[0]!)).toContain('begin at 0 or later');
  });
});

describe('on a board that runs', () => {
  const options: BoardOptions = {
    identity: 'PB-0001',
    seed: 11,
    channels: [
      { channel: 1, thermocouple: 'K', where: { at: 'part', depth: 0, distanceMillimetres: 75 } },
      { channel: 2, thermocouple: 'K', where: { at: 'part', depth: 0, distanceMillimetres: 75 } },
    ],
  };

  it('is the same as done afterwards to the run that was kept', () => {
    const mishaps: Mishap[] = [
      { kind: 'detached', channel: 1, fromSeconds: 120 },
      { kind: 'cold-junction-jump', channel: 'all', fromSeconds: 200, untilSeconds: 260 },
    ];
    const played = (further: Partial<BoardOptions>): { lines: string[]; kept: Signals[] } => {
      const kept: Signals[] = [];
      const board = createBoard({ ...options, ...further, onSignals: (now) => kept.push(now) });
      board.heater({ on: true, setPointCelsius: 150 });
      return {
        lines: board
          .advance(300_000)
          .split('\n')
          .filter((line) => line.startsWith('sample')),
        kept,
      };
    };
    const clean = played({});
    const spoiled = played({ mishaps });
    expect(spoiled.kept).toEqual(clean.kept);
    expect(clean.kept.length).toBe(300);
    const after = withMishaps(clean.kept, mishaps, options.seed).map((now, sequence) => sampleOf(now, sequence));
    expect(spoiled.lines.map((line) => line.replace(/ ~.*/, ''))).toEqual(after.map(lineOf));
    expect(spoiled.lines).not.toEqual(clean.lines);
  });

  it('tells how much of its power the heater gives', () => {
    let share: number | undefined;
    const board = createBoard({ ...options, onSignals: ({ channels }) => (share = channels[0]!.heating) });
    board.advance(2000);
    expect(share).toBe(0);
    board.heater({ on: true, setPointCelsius: 100 });
    board.advance(60_000);
    expect(share).toBeCloseTo(1, 6);
    board.advance(4 * 3_600_000);
    expect(share).toBeGreaterThan(0);
    expect(share).toBeLessThan(0.5);
  });

  it('has instruments that show what they make of it', () => {
    const [now] = withMishaps(run(1), one('wrong-type', { wire: 'J' }));
    const shown = sampleValue(now!.channels[0]!, 'temperature').reading;
    expect(shown.form === 'temperature' && Math.abs(shown.centiCelsius / 100 - 189.8) < 0.15).toBe(true);
  });
});
