/** The bounds of a link: lines without end, commands that nobody takes, tries that never end, boards at once. */
import { describe, expect, it } from 'vitest';
import { encode } from '../../../firmware-protocol/codec/encode.ts';
import { limits } from '../../../server/measure/limits.ts';
import type { PortHandlers } from '../../../server/wire/port.ts';
import { openLink } from '../../../server/wire/serial-link.ts';
import { oneBoard, setUp } from './bench-board.ts';
import { createHandClock, settled } from './hand-clock.ts';

describe('bounds of a link', () => {
  it('a line without end is one bad line of bounded length, the rest is dropped and counted', async () => {
    const bench = setUp(oneBoard());
    await bench.run(1500);
    const piece = 'x'.repeat(64 * 1024);
    for (let round = 0; round < 100; round += 1) bench.cable.write(piece);
    await bench.clock.advance(0);
    const counts = bench.link.counts();
    expect(counts.linesBad).toBe(0);
    expect(counts.bytesDropped).toBe(100 * piece.length - (limits.lineLengthMaximum + 1));
    bench.cable.write('\n');
    await bench.run(2000);
    expect(bench.link.counts().linesBad).toBe(1);
    expect(bench.states().at(-1)).toBe('open');
    await bench.link.close();
  });

  it('commands that the port does not take are refused beyond the bound', async () => {
    const clock = createHandClock();
    let port: PortHandlers | undefined;
    const link = openLink({
      path: 'stuck',
      platform: 'linux',
      clock,
      onEvent: () => {},
      openPort: async (_path, handlers) => {
        port = handlers;
        return { write: () => new Promise(() => {}), close: async () => {} };
      },
    });
    await clock.advance(0);
    const board = oneBoard();
    port?.onBytes(Buffer.from(board.advance(400), 'latin1'));
    await settled();
    const sent = Array.from({ length: 100 }, (_, index) => link.send({ kind: 'heartbeat', command: index + 1 }));
    // One place is taken by the link's own asking for the hello.
    expect(sent.filter(Boolean)).toHaveLength(limits.commandsWaitingMaximum - 1);
    await link.close();
  });

  it('a port that takes no command is of no use, and that is told once however often it is tried', async () => {
    const clock = createHandClock();
    const states: string[] = [];
    const link = openLink({
      path: 'broken',
      platform: 'linux',
      clock,
      onEvent: (event) => event.type === 'link' && states.push(`${event.state}: ${event.cause}`),
      openPort: async () => ({
        write: () => Promise.reject(new Error('Input/output error')),
        close: async () => {},
      }),
    });
    await clock.advance(60_000);
    expect(states).toEqual([
      'opening: opening broken',
      'waiting for hello: the port is open',
      'refused: writing failed: Input/output error',
    ]);
    await link.close();
  });

  it('a link that is closed while its port is being opened closes the port and says no more', async () => {
    const clock = createHandClock();
    let letOpen: () => void = () => {};
    let closes = 0;
    const states: string[] = [];
    const link = openLink({
      path: 'slow',
      platform: 'linux',
      clock,
      onEvent: (event) => event.type === 'link' && states.push(event.state),
      openPort: () =>
        new Promise((resolve) => {
          letOpen = () =>
            resolve({
              write: async () => {},
              close: async () => {
                closes += 1;
              },
            });
        }),
    });
    await clock.advance(0);
    const closing = link.close();
    letOpen();
    await closing;
    expect(closes).toBe(1);
    expect(states).toEqual(['opening']);
    expect(clock.waiting()).toBe(0);
  });

  it('a port that is never there is tried for ever, at most every few seconds, and told once', async () => {
    const clock = createHandClock();
    const tries: number[] = [];
    const states: string[] = [];
    const link = openLink({
      path: 'COM9',
      platform: 'win32',
      clock,
      onEvent: (event) => event.type === 'link' && states.push(event.state),
      openPort: () => {
        tries.push(clock.monotonic());
        return Promise.reject(new Error('Opening COM9: File not found'));
      },
    });
    await clock.advance(3_600_000);
    const pauses = tries.slice(1).map((at, index) => at - tries[index]!);
    expect(pauses[0]).toBe(limits.reopenFirstMilliseconds);
    expect(Math.max(...pauses)).toBe(limits.reopenLongestMilliseconds);
    expect(tries.length).toBeGreaterThan(700);
    expect(states).toEqual(['opening', 'refused']);
    await link.close();
    expect(clock.waiting()).toBe(0);
  });

  it('a board that contradicts its own hello is refused, not believed', async () => {
    const bench = setUp(oneBoard());
    await bench.run(2000);
    const sample = encode({
      kind: 'sample',
      boot: 1,
      sequence: 50,
      ticks: 99_000,
      resent: false,
      inputs: 0,
      values: [{ channel: 1, faults: [], reading: { form: 'temperature', centiCelsius: 2000 } }],
    });
    const before = bench.samples().length;
    bench.cable.write(`${sample}\n`);
    await bench.clock.advance(0);
    expect(bench.states().at(-1)).toBe('waiting for hello');
    await bench.run(1500);
    expect(bench.states().at(-1)).toBe('open');
    bench.cable.write(`${sample}\n`);
    await bench.clock.advance(0);
    expect(bench.states().at(-1)).toBe('refused');
    const mine = bench.samples().slice(before);
    expect(mine.every((event) => event.sample.sequence !== 50)).toBe(true);
    await bench.link.close();
  });

  it('several ports at once do not disturb each other', async () => {
    const benches = Array.from({ length: limits.boardsMaximum }, (_, index) =>
      setUp(oneBoard({ identity: `PB-${index + 1}`, seed: index })),
    );
    await Promise.all(benches.map((bench) => bench.run(2000)));
    benches[3]!.cable.unplug();
    await Promise.all(benches.map((bench) => bench.run(2000)));
    benches.forEach((bench, index) => {
      expect(bench.samples().every(({ board }) => board === `PB-${index + 1}`)).toBe(true);
      expect(bench.samples()).toHaveLength(index === 3 ? 2 : 4);
    });
    await Promise.all(benches.map((bench) => bench.link.close()));
  });
});
