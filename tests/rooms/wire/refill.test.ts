/** What does not come is asked for again, comes late once, and what stays lost is told with its reason. */
import { describe, expect, it } from 'vitest';
import type { Hole } from '../../../server/weld/hole.ts';
import { type Bench, oneBoard, setUp } from './bench-board.ts';

const holes = (bench: Bench): Hole[] => bench.events.flatMap((event) => (event.type === 'hole' ? [event.hole] : []));
const sequences = (bench: Bench): number[] =>
  bench
    .samples()
    .map(({ sample }) => sample.sequence)
    .sort((a, b) => a - b);
const upTo = (end: number): number[] => Array.from({ length: end + 1 }, (_, index) => index);

describe('a hole in what a board sends', () => {
  it('of 10 s without its cable is filled, each reading once and marked as sent again', async () => {
    const board = oneBoard();
    const bench = setUp(board);
    await bench.run(5000);
    bench.cable.unplug();
    await bench.run(10_000);
    bench.cable.plugIn();
    await bench.run(10_000);
    expect(sequences(bench)).toEqual(upTo(sequences(bench).at(-1)!));
    const late = bench.samples().filter(({ sample }) => sample.resent);
    expect(late.length).toBeGreaterThanOrEqual(10);
    expect(holes(bench)).toEqual([
      {
        boot: 1,
        from: late[0]!.sample.sequence,
        to: late.at(-1)!.sample.sequence,
        came: late.length,
        lost: 0,
        fate: 'sent again',
      },
    ]);
    expect(bench.link.counts().linesMissing).toBe(0);
    await bench.link.close();
  });

  it('of a frozen port that stays open and silent is filled too', async () => {
    const board = oneBoard();
    const bench = setUp(board);
    await bench.run(5000);
    board.inject({ kind: 'unplugged' });
    await bench.run(9000);
    board.inject({ kind: 'plugged in' });
    await bench.run(15_000);
    expect(bench.states()).toContain('lost');
    expect(sequences(bench)).toEqual(upTo(sequences(bench).at(-1)!));
    await bench.link.close();
  });

  it('torn by bursts of garbage is filled, also where the answer is torn again', async () => {
    const board = oneBoard({ periodMilliseconds: 500 });
    const bench = setUp(board);
    await bench.run(4000);
    for (let burst = 0; burst < 6; burst += 1) {
      board.inject({ kind: 'cut line' });
      await bench.run(450);
      board.inject({ kind: 'garbage', bytes: 400 });
      await bench.run(300);
    }
    await bench.run(12_000);
    expect(sequences(bench)).toEqual(upTo(sequences(bench).at(-1)!));
    expect(holes(bench).length).toBeGreaterThan(0);
    expect(holes(bench).every(({ fate }) => fate === 'sent again')).toBe(true);
    await bench.link.close();
  });

  it('longer than the board keeps is filled as far as it keeps, and the rest is told as lost', async () => {
    const board = oneBoard({ linesKept: 8 });
    const bench = setUp(board);
    await bench.run(5000);
    bench.cable.unplug();
    await bench.run(20_000);
    bench.cable.plugIn();
    await bench.run(8000);
    expect(holes(bench)).toEqual([
      {
        boot: 1,
        from: 5,
        to: expect.any(Number),
        came: expect.any(Number),
        lost: expect.any(Number),
        fate: 'no longer kept',
      },
    ]);
    const [hole] = holes(bench);
    expect(hole!.lost).toBeGreaterThan(10);
    expect(hole!.came).toBeGreaterThanOrEqual(6);
    expect(hole!.came + hole!.lost!).toBe(hole!.to! - hole!.from + 1);
    expect(bench.link.counts().linesMissing).toBe(hole!.lost);
    await bench.link.close();
  });

  it('of a board that keeps nothing is told at once', async () => {
    const board = oneBoard({ linesKept: 0, periodMilliseconds: 500 });
    const bench = setUp(board);
    await bench.run(5000);
    board.inject({ kind: 'cut line' });
    await bench.run(3000);
    expect(holes(bench)).toMatchObject([{ came: 0, fate: 'no longer kept' }]);
    await bench.link.close();
  });

  it('left by a board that started again is told as that, and its first readings are asked for', async () => {
    const board = oneBoard();
    const bench = setUp(board);
    await bench.run(5000);
    bench.cable.unplug();
    await bench.run(1500);
    board.reboot();
    await bench.run(4000);
    bench.cable.plugIn();
    await bench.run(6000);
    expect(holes(bench)).toMatchObject([
      { boot: 1, from: 5, came: 0, fate: 'board started again' },
      { boot: 2, from: 0, lost: 0, fate: 'sent again' },
    ]);
    expect(holes(bench)[0]).not.toHaveProperty('to');
    const second = bench.samples().filter(({ sample }) => sample.boot === 2);
    const numbers = second.map(({ sample }) => sample.sequence).sort((a, b) => a - b);
    expect(numbers).toEqual(upTo(numbers.at(-1)!));
    await bench.link.close();
  });

  it('that nobody answers for is given up after some questions, and the next one is asked for anew', async () => {
    const board = oneBoard({ periodMilliseconds: 500 });
    const bench = setUp({
      ...board,
      receive: (bytes) => (bytes.includes('send-again') ? undefined : board.receive(bytes)),
    });
    await bench.run(5000);
    board.inject({ kind: 'cut line' });
    await bench.run(15_000);
    expect(holes(bench)).toMatchObject([{ came: 0, lost: 2, fate: 'not sent again' }]);
    bench.put(board);
    board.inject({ kind: 'cut line' });
    await bench.run(5000);
    expect(holes(bench)).toMatchObject([{ fate: 'not sent again' }, { came: 2, lost: 0, fate: 'sent again' }]);
    await bench.link.close();
  });
});
