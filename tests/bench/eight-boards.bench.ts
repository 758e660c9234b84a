/**
 * Eight boards of 16 channels, each ten times a second, into one station on the machine's own clock: link, reading,
 * judgement, commit to disk. What the boards say is made before, so that only the station's work is measured. Ten minutes
 * are promised; PREHEAT_BENCH_SECONDS says how long it is run, 60 s if not given. A line is late by the time from its
 * last byte to the commit that holds it.
 */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';
import { createBoard } from '../../firmware-protocol/emulator/board.ts';
import { type Station, startStation } from '../../server/station/station.ts';
import { jointSchema } from '../../server/weld/joint.ts';
import { createInProcessPort, type InProcessPort } from '../../server/wire/in-process-port.ts';
import { benchStation } from './bench-station.ts';
import { channels, sixteenChannelJoint } from './sixteen-channels.ts';

const boards = 8;
const periodMilliseconds = 100;
const seconds = Number(process.env.PREHEAT_BENCH_SECONDS ?? 60);
const promised = { cpuShare: 0.25, p99Milliseconds: 150, growth: 1.1 };

interface Measured {
  readonly sent: number;
  readonly committed: number;
  readonly latenessMilliseconds: readonly number[];
  readonly cpuShare: number;
  /** At each tenth of the time, after a collection. */
  readonly heapMegabytes: readonly number[];
}

const nameOf = (index: number): string => `eight-${index}`;

/** Exit status for the runner: true if all that was promised was kept. */
export async function runBench(): Promise<boolean> {
  const home = mkdtempSync(join(tmpdir(), 'bench-eight-'));
  const cables = Array.from({ length: boards }, createInProcessPort);
  const pieces = cables.map((cable, index) => piecesOf(cable, index));
  const station = await startStation({
    ...benchStation(home),
    ports: cables.map((_, index) => nameOf(index)),
    openPort: (path, handlers) => cables[Number(path.split('-')[1])]!.openPort(path, handlers),
  });
  try {
    return print(await measure(station, cables, pieces));
  } finally {
    await station.close();
    rmSync(home, { recursive: true, force: true });
  }
}

/** All that one board will say, a period a piece; asked for its hello it says it again. Nothing is lost on this cable. */
function piecesOf(cable: InProcessPort, index: number): string[] {
  const board = createBoard({
    identity: nameOf(index),
    seed: index + 1,
    periodMilliseconds,
    channels: channels.map((channel) => ({
      channel,
      thermocouple: 'K',
      where: { at: 'part', depth: channel % 2, distanceMillimetres: 75 },
    })),
  });
  const pieces = Array.from({ length: (seconds + 6) * 10 }, () => board.advance(periodMilliseconds));
  const hello = pieces.join('').match(/hello .*\n/)![0];
  cable.onData((bytes) => {
    if (bytes.includes('ask-hello')) setImmediate(() => cable.write(`\n${hello}`));
  });
  return pieces;
}

async function measure(station: Station, cables: readonly InProcessPort[], pieces: string[][]): Promise<Measured> {
  const writtenAt = new Map<string, number>();
  const lateness: number[] = [];
  let sent = 0;
  let committed = 0;
  station.pipeline.onStep(({ items }) => {
    const now = performance.now();
    for (const item of items) {
      if (item.type !== 'scan') continue;
      const key = `${item.scan.board} ${item.scan.sequence}`;
      const at = writtenAt.get(key);
      if (at === undefined) continue;
      writtenAt.delete(key);
      committed += 1;
      lateness.push(now - at);
    }
  });
  const say = (index: number, period: number): void => {
    const bytes = pieces[index]![period]!;
    for (const [, sequence] of bytes.matchAll(/sample boot=1 sequence=(\d+)/g)) {
      writtenAt.set(`${nameOf(index)} ${sequence}`, performance.now());
      sent += 1;
    }
    cables[index]!.write(bytes);
  };
  const heard = station.pipeline.intake.boards.byId;
  for (let tries = 0; heard.size < boards && tries < 200; tries += 1) await wait(100);
  if (heard.size < boards) throw new Error(`only ${heard.size} boards were heard`);
  const joints = Array.from({ length: boards }, (_, index) => jointOf(index));
  await Promise.all(joints.map((joint) => station.pipeline.open(joint, 'Bench')));

  const cpu = process.cpuUsage();
  const begun = performance.now();
  const heap: number[] = [];
  const tenth = Math.max(1, Math.floor(seconds));
  for (let period = 0; period < seconds * 10; period += 1) {
    // Boards do not speak at the same moment.
    for (let index = 0; index < boards; index += 1) {
      const due = begun + period * periodMilliseconds + (index * periodMilliseconds) / boards;
      const left = due - performance.now();
      if (left > 0) await wait(left);
      say(index, period + 10);
    }
    if (period % tenth === tenth - 1) heap.push(heapMegabytes());
  }
  const used = process.cpuUsage(cpu);
  const passed = performance.now() - begun;
  await wait(500);
  return {
    sent,
    committed,
    latenessMilliseconds: lateness.sort((a, b) => a - b),
    cpuShare: (used.user + used.system) / 1000 / passed,
    heapMegabytes: heap,
  };
}

const jointOf = (index: number) => {
  const joint = sixteenChannelJoint();
  const probes = joint.probes.map((probe) => ({ ...probe, board: nameOf(index) }));
  return jointSchema.parse({ ...joint, id: `bench-${index}`, probes });
};

/** What is left after a forced collection; one takes less than the time between two lines. */
setFlagsFromString('--expose-gc');
const collect = runInNewContext('gc') as () => void;
const heapMegabytes = (): number => {
  collect();
  return process.memoryUsage().heapUsed / 1e6;
};

function print({ sent, committed, latenessMilliseconds, cpuShare, heapMegabytes }: Measured): boolean {
  const at = (share: number): number => latenessMilliseconds[Math.floor(latenessMilliseconds.length * share)] ?? NaN;
  const [early, late] = [heapMegabytes[0]!, heapMegabytes.at(-1)!];
  const rows: [string, boolean, string][] = [
    [`${sent} lines sent, ${committed} committed`, sent === committed, 'none lost'],
    [`${(cpuShare * 100).toFixed(1)} % of one core`, cpuShare < promised.cpuShare, 'under 25 %'],
    [
      `from last byte to commit: median ${at(0.5).toFixed(0)} ms, 99 % under ${at(0.99).toFixed(0)} ms`,
      at(0.99) < promised.p99Milliseconds,
      'under 150 ms',
    ],
    [
      `heap after a collection: ${early.toFixed(1)} MB at a tenth of the time, ${late.toFixed(1)} MB at its end (${(((late - early) / early) * 100).toFixed(1)} % more)`,
      late < early * promised.growth,
      'flat within 10 %',
    ],
  ];
  console.log(`\nEight boards of 16 channels at 10 Hz, ${seconds} s in real time`);
  console.log(`  heap at each tenth: ${heapMegabytes.map((each) => each.toFixed(1)).join(', ')} MB`);
  for (const [what, kept, limit] of rows) console.log(`  ${what}  (${limit}: ${kept ? 'kept' : 'NOT KEPT'})`);
  return rows.every(([, kept]) => kept);
}
