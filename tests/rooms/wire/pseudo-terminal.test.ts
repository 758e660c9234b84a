/**
 * Real bytes through a real pseudo-terminal, the real serial library at its other end. Waits for events, never
 * for a time. Skipped, and counted as such, where this system has no pseudo-terminal.
 */
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { encode } from '../../../firmware-protocol/codec/encode.ts';
import type { Clock } from '../../../server/measure/clock.ts';
import { limits } from '../../../server/measure/limits.ts';
import type { Instant } from '../../../server/measure/quantity.ts';
import type { WireEvent } from '../../../server/wire/event.ts';
import { portAdvice } from '../../../server/wire/port-advice.ts';
import { portIdentity } from '../../../server/wire/port-identity.ts';
import { openPseudoTerminal, type PseudoTerminal } from '../../../server/wire/pseudo-terminal.ts';
import { openLink } from '../../../server/wire/serial-link.ts';
import { serialPortOpener } from '../../../server/wire/serial-port.ts';
import { oneBoard } from './bench-board.ts';

/** The machine's own clock: the port is real here. */
const machineClock: Clock = {
  wall: () => Date.now() as Instant,
  monotonic: () => performance.now(),
  after: (duration, wake) => {
    const timer = setTimeout(wake, duration);
    return () => clearTimeout(timer);
  },
};

const probe = await openPseudoTerminal();
probe?.close();

const subject = `a pseudo-terminal${probe === undefined ? ' (skipped: this system has none)' : ''}`;

describe.skipIf(probe === undefined)(subject, () => {
  let terminal: PseudoTerminal;

  beforeEach(async () => {
    terminal = (await openPseudoTerminal())!;
  });
  afterEach(() => terminal.close());

  const opened = async (): Promise<{
    got: Promise<string>;
    close: () => Promise<void>;
    write: (text: string) => void;
  }> => {
    let all = '';
    let tell: (text: string) => void = () => {};
    const got = new Promise<string>((resolve) => {
      tell = resolve;
    });
    const port = await serialPortOpener()(terminal.path, {
      onBytes: (bytes) => {
        all += Buffer.from(bytes).toString('latin1');
        if (all.endsWith('end\n')) tell(all);
      },
      onLost: (cause) => tell(`lost: ${cause}`),
    });
    return { got, close: port.close, write: (text) => void port.write(text) };
  };

  it('changes no byte on the way in either direction, and echoes nothing', async () => {
    const port = await opened();
    const every = Array.from({ length: 256 }, (_, code) => String.fromCharCode(code)).join('');
    const heard = new Promise<string>((resolve) => {
      let all = '';
      terminal.onData((bytes) => {
        all += bytes;
        if (all.endsWith('end\n')) resolve(all);
      });
    });
    terminal.write(`${every}end\n`);
    expect(await port.got).toBe(`${every}end\n`);
    port.write(`${every}end\n`);
    expect(await heard).toBe(`${every}end\n`);
    await port.close();
  });

  it('carries more than the system holds at once, whole and in order, to a reader that keeps up', async () => {
    const port = await opened();
    const lines = Array.from({ length: 4000 }, (_, index) => encode({ kind: 'heartbeat', command: index }));
    for (const line of lines) {
      if (!terminal.write(`${line}\n`)) {
        await terminal.drained();
        expect(terminal.write(`${line}\n`)).toBe(true);
      }
    }
    await terminal.drained();
    terminal.write('end\n');
    expect(await port.got).toBe(`${lines.join('\n')}\nend\n`);
    await port.close();
  });

  it('holds a bounded number of bytes that nobody reads, lets them go, and neither blocks nor throws', async () => {
    const piece = `${'x'.repeat(1000)}\n`;
    let taken = 0;
    while (terminal.write(piece) && taken < 1000) taken += 1;
    expect(taken).toBeLessThan((limits.pseudoTerminalWaitingMaximum + 32_768) / piece.length);
    await terminal.drained();
    expect(terminal.write(piece)).toBe(true);
  });

  it('is known for what it is', async () => {
    expect(await portIdentity(terminal.path)).toEqual({
      verified: false,
      detail: expect.stringContaining('pseudo-terminal'),
    });
  });

  it('that is open already, or missing, gives an error with advice', async () => {
    const port = await opened();
    const second = serialPortOpener()(terminal.path, { onBytes: () => {}, onLost: () => {} });
    const busy = await second.then(
      () => undefined,
      (error: Error) => error,
    );
    expect(portAdvice(busy!, process.platform).reason).toBe('busy');
    await port.close();
    const nowhere = serialPortOpener()(`${terminal.path}-not-there`, { onBytes: () => {}, onLost: () => {} });
    const missing = await nowhere.then(
      () => undefined,
      (error: Error) => error,
    );
    expect(portAdvice(missing!, process.platform).reason).toBe('missing');
  });

  it('carries an emulated board to a link: hello, samples, a command and back, and its end', async () => {
    const board = oneBoard({ periodMilliseconds: 100 });
    const events: WireEvent[] = [];
    let whenLost: () => void = () => {};
    const link = await new Promise<ReturnType<typeof openLink>>((resolve) => {
      const made = openLink({
        path: terminal.path,
        openPort: serialPortOpener(),
        clock: machineClock,
        platform: process.platform,
        onEvent: (event) => {
          events.push(event);
          if (event.type === 'link' && event.state === 'lost') whenLost();
          if (event.type === 'sample' && event.sample.sequence === 20) resolve(made);
        },
      });
      // The board lives on by half a second each time the station asks for its hello.
      terminal.onData((bytes) => {
        board.receive(bytes);
        terminal.write(board.advance(2500));
      });
    });
    expect(events.filter(({ type }) => type === 'hello')[0]).toMatchObject({ hello: { simulated: true } });
    const sequences = events.flatMap((event) => (event.type === 'sample' ? [event.sample.sequence] : []));
    expect(sequences).toEqual(sequences.map((_, index) => sequences[0]! + index));
    expect(link.counts()).toMatchObject({ linesBad: 0, linesMissing: 0 });

    const commanded = new Promise<void>((resolve) => {
      terminal.onData((bytes) => {
        board.receive(bytes);
        if (board.outputs().lamp === 'fast') resolve();
      });
    });
    expect(link.send({ kind: 'lamp', command: 1, state: 'fast' })).toBe(true);
    await commanded;

    const lost = new Promise<void>((resolve) => {
      whenLost = resolve;
    });
    terminal.close();
    await lost;
    expect(events.findLast(({ type }) => type === 'link')).toMatchObject({
      cause: expect.stringMatching(/^the port is gone, as when it is pulled out/),
    });
    await link.close();
  });

  it('writing to a port that has gone is refused, and that it has gone is told once', async () => {
    const terminal = (await openPseudoTerminal())!;
    const lost: string[] = [];
    const port = await serialPortOpener()(terminal.path, { onBytes: () => {}, onLost: (cause) => lost.push(cause) });
    terminal.close();
    await expect(port.write('hello\n')).rejects.toThrow();
    // What the library tells of one loss comes in several events, one turn after another.
    await new Promise((resolve) => setImmediate(() => setImmediate(resolve)));
    expect(lost).toHaveLength(1);
    await port.close();
  });
});
