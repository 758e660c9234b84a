/**
 * Ten thousand faults of a link, by seed, on a clock of its own: noise, torn and lost lines, cables that come out with
 * and without a word of the system, frozen and half-open ports, boards that start again or are moved, twins, a station
 * that stands still, sleeps, or is started again in the middle of a commit. Every number that a board gave ends as a
 * reading, a late reading or in a named gap, and none twice. A failure prints its seed; PREHEAT_SEEDS=7,8 runs others,
 * PREHEAT_FAULTS=100000 more of them.
 */
import { expect, it } from 'vitest';
import { nothingLearnt, watched } from '../../server/trip/watched.ts';
import type { Hole } from '../../server/weld/hole.ts';
import { createBoardBook } from '../../server/wire/board-book.ts';
import type { WireEvent } from '../../server/wire/event.ts';
import type { PortHandlers } from '../../server/wire/port.ts';
import { type BoardLink, openLink } from '../../server/wire/serial-link.ts';
import { everyNumberEnds, type Numbered } from '../support/every-number.ts';
import { createMovedClock } from '../support/moved-clock.ts';
import { type NumberedBoard, numberedBoard } from '../support/numbered-board.ts';
import { random } from '../support/random.ts';

const seeds = (process.env.PREHEAT_SEEDS ?? '1,2,3,4').split(',').map(Number);
const faultsInAll = Number(process.env.PREHEAT_FAULTS ?? 10_000);
const step = 250;
/** What a system keeps of a port that nobody reads, bytes. */
const kernelKeeps = 4096;

it.each(seeds)('every number ends once, seed %i', { timeout: 120_000 }, async (seed) => {
  const storm = createStorm(seed);
  await storm.rage(Math.ceil(faultsInAll / seeds.length));
  await storm.calm();
  const { readings, holes, kinds } = storm;
  expect(everyNumberEnds(readings, holes, `seed ${seed}, `)).toBeGreaterThan(faultsInAll / seeds.length / 2);
  expect(readings.some(({ resent }) => resent)).toBe(true);
  for (const fate of ['sent again', 'board started again', 'no longer kept'] as const)
    expect(
      holes.some((hole) => hole.fate === fate),
      fate,
    ).toBe(true);
  // Each kind of fault has been there.
  expect(
    Object.values(kinds).every((count) => count > 3),
    JSON.stringify(kinds),
  ).toBe(true);
});

interface Socket {
  board: NumberedBoard | undefined;
  open: PortHandlers | undefined;
  /** Nothing passes, and the system says nothing. */
  deaf: number;
  /** What is written is lost. */
  mute: number;
  closesNever: boolean;
}

function createStorm(seed: number) {
  const chance = random(seed);
  const below = (count: number): number => Math.floor(chance() * count);
  const clock = createMovedClock();
  const readings: (Numbered & { readonly resent: boolean })[] = [];
  const holes: Hole[] = [];
  const kinds: Record<string, number> = {};
  /** What the record holds, as a restart reads it; of the newest starts of the board. */
  let kept: object[] = [];
  let fresh: WireEvent[] = [];
  const sockets: Record<string, Socket> = { A: socket(), B: socket() };
  let at = 'A';
  let out = 0;
  let twinLeft = 0;
  let links: BoardLink[] = [];
  let heardAt = 0;
  let torn: ((line: string) => string)[] = [];
  const own = numberedBoard('S-1', 1);
  sockets.A!.board = own;

  const commit = (): void => {
    for (const event of fresh.splice(0)) {
      if (event.type === 'sample') {
        const { boot, sequence, ticks, resent } = event.sample;
        readings.push({ boot, sequence, resent });
        const scan = { board: 'S-1', boot, sequence, ticks, late: resent, arrivedAt: event.arrivedAt };
        kept.push({ type: 'scan', scan });
      } else if (event.type === 'hole') {
        holes.push(event.hole);
        kept.push({ type: 'station', at: event.arrivedAt, event: { kind: 'hole', board: 'S-1', ...event.hole } });
      }
    }
  };

  const start = (): void => {
    const book = createBoardBook(clock);
    const learnt = nothingLearnt();
    for (const _ of watched(kept as never, learnt, () => {}));
    kept = kept.slice(-2000);
    for (const [board, before] of learnt.boards) book.resume(board, before);
    links = Object.entries(sockets).map(([path, there]) =>
      openLink({
        path,
        clock,
        book,
        platform: 'linux',
        onEvent: (event) => {
          fresh.push(event);
          if (event.type === 'sample') heardAt = clock.monotonic();
        },
        openPort: async (_path, handlers) => {
          if (there.board === undefined) throw new Error('No such file or directory');
          there.open = handlers;
          there.closesNever = false;
          return {
            write: async (text) => {
              if (there.mute === 0 && there.deaf === 0) there.board?.receive(text);
            },
            close: () => {
              if (there.open === handlers) there.open = undefined;
              return there.closesNever ? new Promise(() => {}) : Promise.resolve();
            },
          };
        },
      }),
    );
  };

  const restart = async (): Promise<void> => {
    // Killed: the last that came was not committed.
    fresh = fresh.slice(0, below(fresh.length + 1));
    commit();
    const closing = Promise.all(links.map((link) => link.close()));
    await turns();
    clock.move(3000);
    await closing;
    fresh = [];
    start();
  };

  const pull = (told: boolean): void => {
    const there = sockets[at]!;
    there.board = undefined;
    if (told) there.open?.onLost('pulled out');
    // Now and then for longer than the board keeps.
    out = chance() < 0.1 ? 150 : 1 + below(24);
  };

  const faults: Record<string, () => void | Promise<void>> = {
    noise: () => void torn.push((line) => noise(1 + below(600)) + line),
    'cut line': () => void torn.push((line) => line.slice(0, below(line.length))),
    'lost line': () => void torn.push(() => ''),
    'changed byte': () => {
      const place = chance();
      torn.push((line) => {
        const index = Math.floor(place * line.length);
        return `${line.slice(0, index)}${noise(1)}${line.slice(index + 1)}`;
      });
    },
    'line twice': () => void torn.push((line) => line + line),
    'pulled out': () => pull(true),
    'pulled out silently': () => pull(false),
    frozen: () => {
      sockets[at]!.deaf = 1 + below(24);
    },
    'commands lost': () => {
      sockets[at]!.mute = 1 + below(24);
    },
    'half open': () => {
      sockets[at]!.closesNever = true;
      sockets[at]!.deaf = 1 + below(20);
    },
    'board starts again': () => {
      // Seldom, or nothing would ever be long enough to be filled.
      if (chance() < 0.2) own.reboot();
      else torn.push(() => '');
    },
    moved: () => {
      pull(chance() < 0.5);
      at = at === 'A' ? 'B' : 'A';
      out = 1 + below(8);
    },
    twin: () => {
      const other = sockets[at === 'A' ? 'B' : 'A']!;
      const isHeard = out === 0 && clock.monotonic() - heardAt <= 500 && sockets[at]!.deaf === 0 && torn.length === 0;
      if (!isHeard || other.board !== undefined) return;
      other.board = numberedBoard('S-1', 1_000_000 + below(1_000_000));
      twinLeft = 8 + below(24);
    },
    'stands still': async () => {
      clock.stall(1000 + below(20_000));
      await turns();
    },
    sleeps: () => clock.sleep(1000 + below(600_000)),
    'started again': restart,
  };
  const names = Object.keys(faults);

  const noise = (count: number): string =>
    Array.from({ length: count }, () => String.fromCharCode(below(256))).join('');

  const mend = (): void => {
    for (const there of Object.values(sockets)) {
      there.deaf = Math.max(0, there.deaf - 1);
      there.mute = Math.max(0, there.mute - 1);
    }
    if (twinLeft > 0) {
      twinLeft -= 1;
      const other = sockets[at === 'A' ? 'B' : 'A']!;
      if (twinLeft === 0 && other.board !== undefined && other.board !== own) {
        other.board = undefined;
        other.open?.onLost('pulled out');
      }
    }
    out = Math.max(0, out - 1);
    const there = sockets[at]!;
    if (out === 0 && there.board !== own) {
      there.board = own;
      // Plugged in anew: it is tried at once, also where it was left alone.
      for (const link of links) link.retry();
    }
  };

  const pass = async (): Promise<void> => {
    const before = clock.monotonic();
    clock.move(step);
    await turns();
    const passed = clock.monotonic() - before;
    for (const there of Object.values(sockets)) {
      const lines = there.board?.advance(passed) ?? [];
      if (there.open === undefined || there.deaf > 0 || there.board === undefined) continue;
      let bytes = '';
      for (const line of lines) bytes += torn.length > 0 ? torn.shift()!(line) : line;
      bytes = bytes.slice(0, kernelKeeps);
      const cut = below(bytes.length + 1);
      for (const part of [bytes.slice(0, cut), bytes.slice(cut)])
        if (part !== '') there.open?.onBytes(Buffer.from(part, 'latin1'));
    }
    if (sockets[at]!.board !== own) own.advance(passed);
    await turns();
    commit();
  };

  start();
  return {
    readings,
    holes,
    kinds,
    async rage(count: number) {
      for (let done = 0; done < count; ) {
        mend();
        if (chance() < 0.4) {
          // While a twin is there the board is heard: whose name a silent one has nobody can tell.
          const possible = twinLeft > 0 ? ['line twice'] : names;
          const name = possible[below(possible.length)]!;
          kinds[name] = (kinds[name] ?? 0) + 1;
          await faults[name]!();
          done += 1;
        }
        await pass();
      }
    },
    async calm() {
      torn = [];
      out = 1;
      for (let quiet = 0; quiet < 240; quiet += 1) {
        mend();
        await pass();
      }
      const closing = Promise.all(links.map((link) => link.close()));
      await turns();
      clock.move(3000);
      await closing;
    },
  };
}

const socket = (): Socket => ({ board: undefined, open: undefined, deaf: 0, mute: 0, closesNever: false });

const turns = async (): Promise<void> => {
  for (let turn = 0; turn < 3; turn += 1) await new Promise((resolve) => setImmediate(resolve));
};
