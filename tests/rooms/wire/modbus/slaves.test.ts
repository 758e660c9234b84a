/**
 * Real bytes between the real serial library and slaves of another maker's library, through two pseudo-terminals with a cable
 * in software between them; and the same slaves over TCP. Waits for events, never for a time. Skipped, and counted as such,
 * where this system has no pseudo-terminal.
 */
import { connect, createServer } from 'node:net';
import modbus from 'modbus-serial';
import { afterEach, describe, expect, it } from 'vitest';
import { machineClock } from '../../../../server/station/machine-clock.ts';
import { machineOutside } from '../../../../server/station/outside.ts';
import type { ToldValue } from '../../../../server/weld/told.ts';
import { type ConnectionLink, openConnection } from '../../../../server/wire/connection/open-connection.ts';
import type { WireEvent } from '../../../../server/wire/event.ts';
import { openPseudoTerminal, type PseudoTerminal } from '../../../../server/wire/pseudo-terminal.ts';
import { connectionIn } from '../../../support/connection-files.ts';

const ends: (() => unknown)[] = [];
afterEach(async () => {
  for (const end of ends.splice(0).toReversed()) await end();
});

/** Input registers of the slaves that are there: address 3 has 1 and 2, address 4 has 1. */
const held = new Map([
  ['3 0', 1501],
  ['3 1', 0x7fff],
  ['4 0', 65_436],
]);
const vector = {
  getInputRegister(register: number, address: number, done: (error: unknown, value: number) => void) {
    const value = held.get(`${address} ${register}`);
    if (value === undefined) done({ modbusErrorCode: 2, msg: 'no such register' }, 0);
    else done(null, value);
  },
};

const channel = (number: number, register = number, more: object = {}) => ({
  channel: number,
  thermocouple: 'K',
  register,
  number: 'int16',
  scale: 0.1,
  unit: 'C',
  ...more,
});
const slaves = [
  {
    board: 'TC-3',
    address: 3,
    registers: 'input',
    firstRegister: 1,
    channels: [channel(1), channel(2, 2, { faults: [{ raw: '7FFF', means: 'open' }] })],
  },
  { board: 'TC-4', address: 4, registers: 'input', firstRegister: 1, channels: [channel(1)] },
  { board: 'TC-5', address: 5, registers: 'input', firstRegister: 1, channels: [channel(1, 50)] },
];

interface Heard {
  readonly link: ConnectionLink;
  readonly events: readonly WireEvent[];
  until<T>(find: (events: readonly WireEvent[]) => T | undefined): Promise<T>;
}

const listen = (description: object): Heard => {
  const events: WireEvent[] = [];
  const waiting = new Set<() => void>();
  const link = openConnection({
    connection: connectionIn({
      format: 'preheat connection 1',
      name: 'bench',
      periodMilliseconds: 200,
      ...description,
    }),
    outside: machineOutside(),
    clock: machineClock(),
    platform: 'linux',
    onEvent: (event) => {
      events.push(event);
      for (const look of [...waiting]) look();
    },
  });
  ends.push(link.close);
  const until = <T>(find: (events: readonly WireEvent[]) => T | undefined): Promise<T> =>
    new Promise((resolve) => {
      const look = (): void => {
        const found = find(events);
        if (found === undefined) return;
        waiting.delete(look);
        resolve(found);
      };
      waiting.add(look);
      look();
    });
  return { link, events, until };
};

const newest = (events: readonly WireEvent[], board: string): readonly ToldValue[] | undefined =>
  events.flatMap((event) => (event.type === 'told' && event.board === board ? [event.told.values] : [])).at(-1);
const told = (board: string) => (events: readonly WireEvent[]) => newest(events, board);

const good = { channel: 1, said: '05DD', reported: 150_100 };
const open = { channel: 2, said: '7FFF', fault: 'open' };
const cold = { channel: 1, said: 'FF9C', reported: -10_000 };

const first = await openPseudoTerminal();
const second = await openPseudoTerminal();
const subject = `slaves on a serial line${second === undefined ? ' (skipped: this system has no pseudo-terminal)' : ''}`;

describe.skipIf(second === undefined)(subject, () => {
  it('are read with their faults, each by itself; one that is not there is told and spoils nothing', async () => {
    const [station, bus] = [first, second] as [PseudoTerminal, PseudoTerminal];
    ends.push(station.close, bus.close);
    station.onData((bytes) => void bus.write(bytes));
    bus.onData((bytes) => void station.write(bytes));
    const server = new modbus.ServerSerial(vector as never, { path: bus.path, baudRate: 19_200, unitID: 255 } as never);
    ends.push(() => new Promise<void>((done) => server.close(() => done())));
    await new Promise<void>((done) => server.on('initialized', () => done()));
    const missing = { ...slaves[2]!, address: 77 };
    const heard = listen({
      kind: 'modbus rtu',
      port: station.path,
      baud: 19_200,
      parity: 'none',
      stopBits: 1,
      answerWithinMilliseconds: 150,
      slowestAnswerMilliseconds: 200,
      slaves: [slaves[0], slaves[1], missing],
    });
    // The library's slave answers to one address or to all: it is the register that is not there.
    expect(await heard.until(told('TC-5'))).toMatchObject([{ channel: 1, fault: 'no reading' }]);
    expect(newest(heard.events, 'TC-3')).toEqual([good, open]);
    expect(newest(heard.events, 'TC-4')).toEqual([cold]);
    expect(heard.link.counts('TC-3').good).toBeGreaterThan(0);
    expect(heard.events).toContainEqual(
      expect.objectContaining({ type: 'link', state: 'open', board: 'TC-3', port: `${station.path} address 3` }),
    );
    expect(heard.events.find((event) => event.type === 'hello')).toMatchObject({
      hello: { board: 'TC-3', simulated: false, firmware: 'Modbus RTU, temperatures as it works them out itself' },
      connection: { kind: 'modbus rtu' },
    });
    // A cable that is cut: no value is left standing.
    station.onData(() => {});
    const silent = await heard.until((events) => {
      const values = newest(events, 'TC-3');
      return values?.[0] !== undefined && 'fault' in values[0] ? values : undefined;
    });
    expect(silent).toEqual([
      { channel: 1, said: 'no answer', fault: 'no reading' },
      { channel: 2, said: 'no answer', fault: 'no reading' },
    ]);
    expect(heard.link.counts('TC-3')).toMatchObject({ last: 'no answer' });
    station.onData((bytes) => void bus.write(bytes));
    await heard.until((events) => (newest(events, 'TC-4')?.[0]?.said === 'FF9C' ? true : undefined));
  }, 20_000);
});

describe('slaves at a network address', () => {
  it('are read as on a line, and again after the connection was lost', async () => {
    const port = await freePort();
    const serve = () => new modbus.ServerTCP(vector as never, { host: '127.0.0.1', port, unitID: 255 });
    let server = serve();
    const end = () => new Promise<void>((done) => server.close(() => done()));
    ends.push(end);
    const heard = listen({
      kind: 'modbus tcp',
      host: '127.0.0.1',
      tcpPort: port,
      answerWithinMilliseconds: 300,
      slaves,
    });
    expect(await heard.until(told('TC-5'))).toEqual([
      { channel: 1, said: expect.stringContaining('exception 2'), fault: 'no reading' },
    ]);
    expect(newest(heard.events, 'TC-3')).toEqual([good, open]);
    expect(newest(heard.events, 'TC-4')).toEqual([cold]);
    expect(heard.link.counts('TC-5').errors).toContainEqual(expect.objectContaining({ what: 'exception' }));
    await end();
    await heard.until((events) => events.find((event) => event.type === 'link' && event.state === 'lost'));
    server = serve();
    const before = heard.events.length;
    expect(await heard.until((events) => newest(events.slice(before), 'TC-3'))).toEqual([good, open]);
  }, 20_000);

  it('are read after the device broke the connection off too', async () => {
    const behind = await freePort();
    const server = new modbus.ServerTCP(vector as never, { host: '127.0.0.1', port: behind, unitID: 255 });
    ends.push(() => new Promise<void>((done) => server.close(() => done())));
    let connections = 0;
    const device = createServer((socket) => {
      connections += 1;
      if (connections === 1) socket.once('data', () => socket.resetAndDestroy());
      else socket.pipe(connect(behind, '127.0.0.1')).pipe(socket);
    });
    const tcpPort = await freePort();
    await new Promise<void>((done) => device.listen(tcpPort, '127.0.0.1', done));
    ends.push(() => device.close());
    const heard = listen({ kind: 'modbus tcp', host: '127.0.0.1', tcpPort, slaves: [slaves[0]] });
    const whole = (events: readonly WireEvent[]) => newest(events, 'TC-3')?.find(({ said }) => said === '05DD');
    expect(await heard.until(whole)).toEqual(good);
    expect(heard.events).toContainEqual(
      expect.objectContaining({
        type: 'link',
        state: 'refused',
        cause: expect.stringContaining('broke the connection off'),
      }),
    );
  }, 20_000);
});

const freePort = (): Promise<number> =>
  new Promise((resolve) => {
    const server = createServer().listen(0, '127.0.0.1', () => {
      const { port } = server.address() as { port: number };
      server.close(() => resolve(port));
    });
  });
