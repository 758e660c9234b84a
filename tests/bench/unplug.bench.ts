/**
 * How soon a station tells that a port is gone or silent, and how soon it reads again: a board, an instrument that prints lines
 * and a Modbus slave, each at a pseudo-terminal with the real serial library, on the machine's own clock. What is told counts
 * from its commit, which may wait 0.1 s for others. Ten times each, at ten places of the period.
 */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
import { limits } from '../../server/measure/limits.ts';
import { machineOutside } from '../../server/station/outside.ts';
import { type Station, startStation } from '../../server/station/station.ts';
import { readConnection } from '../../server/weld/connection/connection.ts';
import { nodeOf, portsStamp } from '../../server/wire/list-ports.ts';
import type { OpenPort } from '../../server/wire/port.ts';
import { serialPortOpener } from '../../server/wire/serial-port.ts';
import { plainJoint } from '../support/plain-joint.ts';
import { benchStation } from './bench-station.ts';
import { connectionsAt, type Device, devicesIn, slowestAnswer } from './unplugged-devices.ts';

const rounds = Number(process.env.PREHEAT_BENCH_ROUNDS ?? 10);
const promised = { goneMilliseconds: 1_000, silentPeriods: 3, openedMilliseconds: 2_000, readPeriods: 2 };
const commit = limits.commitGroupMilliseconds;

interface Times {
  readonly gone: number[];
  readonly silent: number[];
  readonly opened: number[];
  readonly read: number[];
}

/** True if all that was promised was kept. */
export async function runBench(): Promise<boolean> {
  const home = mkdtempSync(join(tmpdir(), 'bench-unplug-'));
  const devices = devicesIn(home);
  for (const device of devices) await device.plugIn();
  /** Tells the device that its port was opened. */
  const watched =
    (open: OpenPort): OpenPort =>
    async (path, ...rest) => {
      const port = await open(path, ...rest);
      devices.find((device) => device.path === path)!.opened();
      return port;
    };
  const outside = machineOutside();
  const station = await startStation({
    ...benchStation(home),
    ports: [devices[0]!.path],
    openPort: watched(serialPortOpener()),
    watch: { list: async () => [], stamp: () => portsStamp('linux', home), node: nodeOf },
    connections: connectionsAt(devices).map((each) => {
      const read = readConnection(each);
      if ('problems' in read) throw new Error(JSON.stringify(read.problems));
      return read.connection;
    }),
    outside: { ...outside, serial: (settings) => watched(outside.serial(settings)) },
  });
  try {
    await station.pipeline.open(jointOn(devices), 'Bench');
    const all = await Promise.all(devices.map((device) => measure(device, station)));
    console.log(`\nA port that goes, falls silent and comes back, ${rounds} times each`);
    return devices.map((device, index) => print(device, all[index]!)).every((kept) => kept);
  } finally {
    await station.close();
    for (const device of devices) device.end();
    rmSync(home, { recursive: true, force: true });
  }
}

const jointOn = (devices: readonly Device[]) =>
  plainJoint({
    id: 'bench-unplug',
    probes: devices.map(({ board }) => ({
      id: `P-${board}`,
      board,
      channel: 1,
      thermocouple: 'K',
      use: 'zone',
      place: { part: 'plate', side: 'A', face: 'front', distanceMillimetres: 75 },
    })),
  });

async function measure(device: Device, { pipeline }: Station): Promise<Times> {
  const { board, periodMilliseconds } = device;
  const waiting = new Map<'reading' | 'no reading', (at: number) => void>();
  pipeline.onStep(({ items }) => {
    for (const item of items) {
      const at = performance.now();
      if (item.type === 'scan') {
        if (item.scan.board !== board) continue;
        const isRead = item.scan.values.some(({ quality }) => quality === 'good');
        waiting.get(isRead ? 'reading' : 'no reading')?.(at);
      } else if (item.kind === 'link') {
        const { board: of, state } = item.body as { board: string; state: string };
        if (of === board && state === 'lost') waiting.get('no reading')?.(at);
      }
    }
  });
  const told = (what: 'reading' | 'no reading'): Promise<number> =>
    new Promise((resolve, reject) => {
      const late = setTimeout(() => reject(new Error(`${device.name}: no word of ${what} within 20 s`)), 20_000);
      waiting.set(what, (at) => {
        clearTimeout(late);
        waiting.delete(what);
        resolve(at);
      });
    });

  const times: Times = { gone: [], silent: [], opened: [], read: [] };
  for (let round = 0; round < rounds; round += 1) {
    const place = ((round + 0.5) / rounds) * periodMilliseconds;
    await told('reading');
    await wait(place);
    const gone = told('no reading');
    const unpluggedAt = performance.now();
    device.unplug();
    times.gone.push((await gone) - unpluggedAt);

    await wait(place);
    const [read, openedAt] = [told('reading'), device.nextOpening()];
    await device.plugIn();
    const pluggedAt = performance.now();
    times.opened.push((await openedAt) - pluggedAt);
    times.read.push((await read) - (await openedAt));

    await told('reading');
    await wait(place);
    const silent = told('no reading');
    const silentAt = performance.now();
    device.say(false);
    times.silent.push((await silent) - silentAt);
    device.say(true);
  }
  return times;
}

function print({ name, periodMilliseconds, startMilliseconds }: Device, times: Times): boolean {
  const start = startMilliseconds === slowestAnswer ? 'its slowest answer' : 'its start';
  const rows: [string, readonly number[], number, string][] = [
    ['unplugged, until it is told', times.gone, promised.goneMilliseconds, ''],
    ['silent, until it is told', times.silent, promised.silentPeriods * periodMilliseconds + commit, '3 periods'],
    ['plugged in, until it is open', times.opened, promised.openedMilliseconds, ''],
    [
      'open, until its first reading',
      times.read,
      startMilliseconds + promised.readPeriods * periodMilliseconds + commit,
      `${startMilliseconds === 0 ? '' : `${start} and `}2 periods`,
    ],
  ];
  console.log(`  ${name}, every ${periodMilliseconds} ms`);
  return rows
    .map(([what, measured, limit, made]) => {
      const sorted = measured.toSorted((a, b) => a - b);
      const worst = sorted.at(-1)!;
      const kept = worst <= limit;
      const because = made === '' ? '' : `, ${made} and the commit`;
      console.log(
        `    ${what.padEnd(30)} median ${whole(sorted[Math.floor(sorted.length / 2)]!)} ms, worst ${whole(worst)} ms  (limit ${limit} ms${because}: ${kept ? 'kept' : 'NOT KEPT'})`,
      );
      return kept;
    })
    .every((kept) => kept);
}

const whole = (number: number): string => String(Math.round(number)).padStart(4);
