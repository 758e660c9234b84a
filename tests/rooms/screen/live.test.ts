/** The live line over socket.io on loopback: no hole whatever breaks, and one slow browser harms nobody. */
import type { Socket as NetSocket } from 'node:net';
import { io, type Socket } from 'socket.io-client';
import { describe, expect, it, onTestFinished } from 'vitest';
import type { CommittedItem } from '../../../server/ledger/item.ts';
import { limits } from '../../../server/measure/limits.ts';
import type { LiveMessage, StationView } from '../../../server/screen/contract.ts';
import { type HttpBench, httpBench } from '../../support/http-bench.ts';
import { jointOn } from '../../support/pipeline-bench.ts';
import { random } from '../../support/random.ts';
import { scan } from '../../support/record.ts';

interface Screen {
  readonly socket: Socket;
  readonly messages: LiveMessage[];
  readonly stations: StationView[];
  position: number;
  /** Resolves once everything up to the position has come. */
  reached(position: number): Promise<void>;
  connect(): Promise<void>;
  disconnect(): void;
}

function screenOf(http: HttpBench, joint = 'one'): Screen {
  const socket = io(http.address, { transports: ['websocket'], autoConnect: false, reconnection: false });
  onTestFinished(() => void socket.close());
  let check = (): void => {};
  const screen: Screen = {
    socket,
    messages: [],
    stations: [],
    position: 0,
    reached: (position) =>
      new Promise((resolve) => {
        check = () => {
          if (screen.position >= position) resolve();
        };
        check();
      }),
    connect: () =>
      new Promise((resolve) => {
        socket.once('connect', () => {
          socket.emit('follow', { joint, after: screen.position });
          socket.once('live', () => resolve());
        });
        socket.connect();
      }),
    disconnect: () => void socket.disconnect(),
  };
  socket.on('station', (view: StationView) => screen.stations.push(view));
  socket.on('live', (message: LiveMessage) => {
    screen.messages.push(message);
    screen.position = Math.max(screen.position, message.position);
    check();
  });
  return screen;
}

const readingsOf = ({ messages }: Screen): string[] =>
  messages.flatMap(({ readings }) => readings.map(({ probe, at, temperature }) => `${at} ${probe} ${temperature}`));

const running = async () => {
  const http = await httpBench();
  http.bench.hello('b1');
  const opening = http.bench.pipeline.open(jointOn('one', 'b1'), 'Ada');
  http.bench.clock.move(100);
  await opening;
  return http;
};
const position = (http: HttpBench): number => http.bench.pipeline.run('one')!.position;

describe('the live line', () => {
  it('after any number of breaks has told the same readings, in order and once, as one that never broke', async () => {
    const http = await running();
    const whole = screenOf(http);
    const broken = screenOf(http);
    await whole.connect();
    await broken.connect();
    const next = random(5);
    for (let round = 0; round < 12; round += 1) {
      if (next() < 0.5) broken.disconnect();
      http.bench.seconds(1 + Math.floor(next() * 5), 100 + round);
      if (!broken.socket.connected) await broken.connect();
      await broken.reached(position(http));
    }
    await whole.reached(position(http));
    expect(readingsOf(broken)).toEqual(readingsOf(whole));
    expect(new Set(readingsOf(whole)).size).toBe(readingsOf(whole).length);
    const recorded = [...http.bench.record.inputs('one')].flatMap((input) =>
      input.type === 'scan'
        ? input.scan.values.map(({ probe, temperature }) => `${input.scan.measuredAt} ${probe} ${temperature}`)
        : [],
    );
    expect(readingsOf(whole)).toEqual(recorded);
  });

  it('tells what lies ahead every few seconds, each outlook once, and makes none while nobody follows', async () => {
    const http = await running();
    http.bench.seconds(20, 100);
    expect(http.bench.pipeline.run('one')!.outlook).toBeUndefined();
    const screen = screenOf(http);
    await screen.connect();
    http.bench.seconds(20, 100);
    await screen.reached(position(http));
    const told = screen.messages.flatMap(({ outlook }) => (outlook === undefined ? [] : [outlook.at]));
    expect(told.length).toBeGreaterThanOrEqual(4);
    for (const [index, at] of told.entries()) if (index > 0) expect(at - told[index - 1]!).toBeGreaterThanOrEqual(5000);
  });

  it('from any position on gives exactly what follows it, however much that is', { timeout: 120_000 }, async () => {
    const http = await running();
    http.bench.seconds(3, 50);
    const boundary = position(http);
    for (let count = 0; count < limits.tailItemsMaximum; count += 1) http.bench.sample('b1', [20 + (count % 9), 30]);
    http.bench.clock.move(1000);
    const late = screenOf(http);
    late.position = boundary;
    await late.connect();
    await late.reached(position(http));
    expect(readingsOf(late)).toHaveLength(2 * limits.tailItemsMaximum);
    expect(late.messages.filter((message) => message.assessment !== undefined)).toHaveLength(1);
    expect(late.messages.at(-1)!.assessment).toBeDefined();
  });

  it('tells each second how things stand, though nothing comes in, and at once that nothing is recorded', async () => {
    const http = await running();
    const screen = screenOf(http);
    await screen.connect();
    http.bench.seconds(1, 160);
    await screen.reached(position(http));
    const told = screen.messages.length;
    const heard = new Promise<LiveMessage>((resolve) => screen.socket.once('live', resolve));
    http.bench.clock.move(1000);
    expect((await heard).assessment).toBeDefined();
    expect(screen.messages.length).toBeGreaterThan(told);

    http.bench.refuse = 'disk I/O error';
    const refused = new Promise<StationView>((resolve) =>
      screen.socket.on('station', (view: StationView) => {
        if (!view.recording) resolve(view);
      }),
    );
    http.bench.sample('b1', [170, 170]);
    http.bench.clock.move(100);
    expect(await refused).toMatchObject({ recording: false, notRecordingBecause: 'disk I/O error' });
    expect(readingsOf(screen).some((reading) => reading.endsWith(' 170000'))).toBe(false);
  });

  it('hears no nonsense: a body that is no question is passed over', async () => {
    const http = await running();
    const screen = screenOf(http);
    await new Promise<void>((resolve) => {
      screen.socket.once('connect', () => resolve());
      screen.socket.connect();
    });
    for (const body of [undefined, 7, { joint: 'one' }, { joint: 'one', after: -1 }, { joint: 'two', after: 0 }, {}]) {
      screen.socket.emit('follow', body);
      screen.socket.emit('unfollow', body);
    }
    screen.socket.emit('follow', { joint: 'one', after: 0 });
    await screen.reached(position(http));
    expect(new Set(screen.messages.map((message) => message.joint))).toEqual(new Set(['one']));
  });

  it('that does not keep up is cut off, and the others are not', { timeout: 120_000 }, async () => {
    const http = await running();
    const slow = screenOf(http);
    const quick = screenOf(http);
    await slow.connect();
    await quick.connect();
    const cut = new Promise<string>((resolve) => slow.socket.on('disconnect', resolve));
    const wire = (slow.socket.io.engine.transport as unknown as { ws: { _socket: NetSocket } }).ws._socket;
    wire.pause();
    const { assessment } = http.bench.pipeline.run('one')!;
    const items = Array.from(
      { length: 1000 },
      (_, n): CommittedItem => ({
        type: 'scan',
        chain: 'one',
        scan: scan(n),
        position: 1_000_000 + n,
      }),
    );
    const bytesEach = JSON.stringify(items.map((item) => item.type === 'scan' && item.scan.values)).length / 2;
    // Twice the bound, beside what the system itself takes in for a reader that is asleep.
    const rounds = Math.ceil((2 * limits.screenBacklogMaximum + 16_000_000) / bytesEach);
    for (let round = 0; round < rounds; round += 1) {
      http.live.step({ joint: 'one', items, assessment, position: 2_000_000 + round });
      await quick.reached(2_000_000 + round);
    }
    http.bench.clock.move(1000);
    wire.resume();
    expect(await cut).toMatch(/transport|disconnect/);
    expect(quick.socket.connected).toBe(true);
  });
});
