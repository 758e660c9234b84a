/** What is connected and is no board of this station: told in plain words, left alone, and taken up again when asked. */
import { describe, expect, it } from 'vitest';
import type { Clock } from '../../../server/measure/clock.ts';
import type { WireEvent } from '../../../server/wire/event.ts';
import { createInProcessPort } from '../../../server/wire/in-process-port.ts';
import type { PortHandlers } from '../../../server/wire/port.ts';
import { openLink } from '../../../server/wire/serial-link.ts';
import { createMovedClock } from '../../support/moved-clock.ts';
import { random } from '../../support/random.ts';
import { oneBoard } from './bench-board.ts';
import { createHandClock, settled } from './hand-clock.ts';

/** A port that speaks what `say` gives each 100 ms at its speed, and writes down what it is told. */
const setUp = (say: (baudRate: number) => string, hear: (bytes: string) => void = () => {}) => {
  const clock = createHandClock();
  const events: WireEvent[] = [];
  const openings: number[] = [];
  let written = '';
  let open: PortHandlers | undefined;
  const link = openLink({
    path: '/dev/ttyUSB0',
    platform: 'linux',
    clock: clock as Clock,
    onEvent: (event) => events.push(event),
    openPort: async (_path, handlers, baudRate) => {
      openings.push(baudRate ?? 0);
      open = handlers;
      return {
        write: async (text) => {
          written += text;
          hear(text);
        },
        close: async () => {
          open = undefined;
        },
      };
    },
  });
  return {
    link,
    openings,
    written: () => written,
    isOpen: () => open !== undefined,
    last: () => events.filter((event) => event.type === 'link').at(-1)!,
    run: async (milliseconds: number) => {
      for (let passed = 0; passed < milliseconds; passed += 100) {
        await clock.advance(100);
        const bytes = say(openings.at(-1)!);
        if (bytes !== '') open?.onBytes(Buffer.from(bytes, 'latin1'));
      }
      await clock.advance(0);
    },
  };
};

const chance = random(3);
const noise = (count: number): string =>
  Array.from({ length: count }, () => String.fromCharCode(Math.floor(chance() * 256))).join('');

describe('a port with something else behind it', () => {
  it('that speaks text of its own is recognised, closed and left alone; it was asked once and told nothing more', async () => {
    const bench = setUp(() => 'ok T:23.4 /0.0 B:21.0\r\n');
    await bench.run(5000);
    expect(bench.last()).toMatchObject({
      state: 'refused',
      leftAlone: true,
      cause: 'another device speaks here, not a board of this station',
      advice: expect.stringContaining('carriage return'),
    });
    expect(bench.isOpen()).toBe(false);
    expect(bench.written().match(/ask-hello/g)).toHaveLength(1);
    await bench.run(600_000);
    expect(bench.openings).toHaveLength(1);
    bench.link.retry();
    await bench.run(1000);
    expect(bench.openings).toHaveLength(2);
    await bench.link.close();
  });

  it('at another speed is looked for at the usual ones, and the board that answers is told with its speed', async () => {
    const board = oneBoard();
    let answers = false;
    const bench = setUp(
      (rate) => {
        const bytes = board.advance(100);
        answers = rate === 57_600;
        return answers ? bytes : noise(bytes.length >> 1);
      },
      (bytes) => answers && board.receive(bytes),
    );
    await bench.run(20_000);
    expect(bench.openings).toEqual([115_200, 9_600, 57_600]);
    expect(bench.last()).toMatchObject({ state: 'open', cause: expect.stringContaining('--baud 57600') });
    expect(bench.link.baudRate()).toBe(57_600);
    await bench.link.close();
  });

  it('that no speed makes readable is left alone, with the speeds that were tried', async () => {
    const bench = setUp(() => noise(20));
    await bench.run(60_000);
    expect(bench.last()).toMatchObject({
      state: 'refused',
      leftAlone: true,
      advice: expect.stringContaining('115200, 9600, 57600'),
    });
    expect(bench.openings).toHaveLength(8);
    bench.link.retry();
    await bench.run(500);
    expect(bench.openings.slice(8)).toEqual([115_200]);
    await bench.link.close();
  });

  it('but a board that once spoke is never taken for one, however long an arc tears its lines', async () => {
    const board = oneBoard();
    let arc = false;
    const bench = setUp(
      () => {
        const bytes = board.advance(100);
        return arc ? noise(30) : bytes;
      },
      (bytes) => board.receive(bytes),
    );
    await bench.run(3000);
    arc = true;
    await bench.run(60_000);
    arc = false;
    await bench.run(5000);
    expect(bench.last()).toMatchObject({ state: 'open' });
    expect(new Set(bench.openings)).toEqual(new Set([115_200]));
    await bench.link.close();
  });

  it('but where text of another device takes its place that is told, and the board is read again once it is back', async () => {
    const board = oneBoard();
    let other = false;
    const bench = setUp(
      () => {
        const bytes = board.advance(100);
        return other ? '$GPGGA,120000,5100.00,N,00700.00,E*47\r\n' : bytes;
      },
      (bytes) => !other && board.receive(bytes),
    );
    await bench.run(3000);
    other = true;
    await bench.run(40_000);
    expect(bench.last()).toMatchObject({ state: 'refused', cause: 'another device speaks where a board spoke before' });
    // At each opening it is asked once, before anything has come of it.
    expect(bench.written().match(/ask-hello/g)!.length).toBeLessThanOrEqual(bench.openings.length + 1);
    other = false;
    await bench.run(12_000);
    expect(bench.last()).toMatchObject({ state: 'open' });
    await bench.link.close();
  });

  it('and a board whose lines come torn, but as text, is no other device', async () => {
    const board = oneBoard();
    let torn = false;
    const bench = setUp(
      () => {
        const bytes = board.advance(100);
        return torn ? bytes.replace(/\d\d ~/g, '77 ~') : bytes;
      },
      (bytes) => board.receive(bytes),
    );
    await bench.run(3000);
    torn = true;
    await bench.run(30_000);
    expect(bench.last().cause).not.toContain('another device');
    torn = false;
    await bench.run(12_000);
    expect(bench.last()).toMatchObject({ state: 'open' });
    await bench.link.close();
  });

  it('nothing at all is waited for and tried again', async () => {
    const bench = setUp(() => '');
    await bench.run(40_000);
    expect(bench.last()).toMatchObject({ state: 'refused', cause: 'nothing comes from this port' });
    expect(bench.openings.length).toBeGreaterThan(2);
    await bench.link.close();
  });
});

describe('a driver that hangs', () => {
  it('while it opens is told, and what opens too late is closed', async () => {
    const clock = createHandClock();
    const events: WireEvent[] = [];
    let closes = 0;
    const late: (() => void)[] = [];
    const link = openLink({
      path: 'COM4',
      platform: 'win32',
      clock,
      onEvent: (event) => events.push(event),
      openPort: () =>
        new Promise((resolve) => {
          late.push(() =>
            resolve({
              write: async () => {},
              close: async () => {
                closes += 1;
              },
            }),
          );
        }),
    });
    await clock.advance(6000);
    expect(events.at(-1)).toMatchObject({ state: 'refused', cause: expect.stringContaining('the port hangs') });
    late[0]!();
    await clock.advance(0);
    expect(closes).toBe(1);
    const closing = link.close();
    await clock.advance(6000);
    await closing;
  });

  it('while it closes is left behind: the port is opened afresh, and that it may be busy is told', async () => {
    const clock = createHandClock();
    const events: WireEvent[] = [];
    const board = oneBoard();
    const handlers: PortHandlers[] = [];
    const link = openLink({
      path: '/dev/ttyUSB0',
      platform: 'linux',
      clock,
      onEvent: (event) => events.push(event),
      openPort: async (_path, each) => {
        handlers.push(each);
        return {
          write: async (text) => board.receive(text),
          close: () => (handlers.length === 1 ? new Promise(() => {}) : Promise.resolve()),
        };
      },
    });
    await clock.advance(10);
    handlers[0]!.onBytes(Buffer.from(board.advance(1500), 'latin1'));
    // From here on the handle is half open: nothing comes through it, and it does not close.
    await clock.advance(8000);
    expect(handlers).toHaveLength(2);
    const lost = events.filter((event) => event.type === 'link' && event.state === 'lost');
    expect(lost).toMatchObject([{ cause: expect.stringContaining('still holds the port') }]);
    handlers[1]!.onBytes(Buffer.from(board.advance(1500), 'latin1'));
    await clock.advance(0);
    expect(events.filter((event) => event.type === 'link').at(-1)).toMatchObject({ state: 'open' });
    await link.close();
  });
});

describe('a station that stood still', () => {
  it('does not take that for a silence of the board: what waits in the port is read first', async () => {
    const board = oneBoard();
    const clock = createMovedClock();
    const cable = createInProcessPort();
    cable.onData((bytes) => board.receive(bytes));
    const states: string[] = [];
    const link = openLink({
      path: 'bench',
      platform: 'linux',
      clock,
      openPort: cable.openPort,
      onEvent: (event) => event.type === 'link' && states.push(event.state),
    });
    const second = async (): Promise<void> => {
      await settled();
      clock.move(1000);
      await settled();
      cable.write(board.advance(1000));
      await settled();
    };
    for (let count = 0; count < 4; count += 1) await second();
    clock.stall(20_000);
    await settled();
    for (let count = 0; count < 4; count += 1) await second();
    expect(states).toEqual(['opening', 'waiting for hello', 'open']);
    await link.close();
  });
});
