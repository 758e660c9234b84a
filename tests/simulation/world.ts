/**
 * A whole station and a board in software on one simulated clock, and what fate does to them: broken wires, a board
 * that starts again, a cable that comes out, noise, a disk that fails, a station that is started again, people who
 * act. Everything follows from the seed.
 */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createBoard } from '../../firmware-protocol/emulator/board.ts';
import type { MishapKind } from '../../firmware-protocol/emulator/mishaps/mishap.ts';
import type { FaceLoss } from '../../firmware-protocol/emulator/part.ts';
import { NotRecording } from '../../server/desk/refusal.ts';
import { createPipeline, type Pipeline, type Step } from '../../server/pipeline.ts';
import { openRecord, type RecordStore } from '../../server/record/store.ts';
import type { Act } from '../../server/weld/entry.ts';
import type { Joint } from '../../server/weld/joint.ts';
import { createBoardBook } from '../../server/wire/board-book.ts';
import { createInProcessPort } from '../../server/wire/in-process-port.ts';
import { type Link, openLink } from '../../server/wire/serial-link.ts';
import { faults, faultyDisk } from '../support/faulty-disk.ts';
import { createMovedClock } from '../support/moved-clock.ts';
import { random } from '../support/random.ts';
import { boardName, channels, simulatedJoint } from './job.ts';

const periodMilliseconds = 1000;
const draught: FaceLoss = { convectionWattsPerSquareMetreKelvin: 20, emissivity: 0.9 };

/** What was so at one second, as the world itself knows it. */
export interface Truth {
  readonly at: number;
  /** Of the junction, by channel. */
  readonly celsius: readonly number[];
  readonly flagged: readonly boolean[];
  /** A line could come through. */
  readonly connected: boolean;
}

export interface Told {
  readonly step: Step;
  /** Newest position that another connection to the record saw at that moment. */
  readonly positionOnDisk: number;
  readonly at: number;
}

export interface Noted {
  readonly text: string;
  outcome: 'waiting' | 'recorded' | 'kept' | 'refused';
}

export interface World {
  readonly folder: string;
  readonly joint: Joint;
  readonly truths: Truth[];
  readonly told: Told[];
  readonly notes: Noted[];
  /** What fate did, for the message of a failure. */
  readonly fate: string[];
  record: RecordStore;
  pipeline: Pipeline;
  seconds(count: number): Promise<void>;
  /** All is put right again, the joint is closed and the station stopped. */
  end(): Promise<void>;
  remove(): void;
}

export async function createWorld(
  seed: number,
  positionOf: (folder: string) => { now(): number; close(): void },
): Promise<World> {
  const chance = random(seed);
  const clock = createMovedClock();
  const disk = faultyDisk();
  const cable = createInProcessPort();
  const board = createBoard({
    identity: boardName,
    seed,
    periodMilliseconds,
    parts: [
      {
        thicknessMillimetres: 20,
        heaterWattsPerSquareMetre: 60_000,
        backLoss: draught,
        // A thin part: more would change by kelvins between the seconds at which the truth is noted.
        heatInputKilojoulesPerMillimetre: 0.5,
      },
    ],
    channels: channels.map((channel) => ({
      channel,
      thermocouple: 'K',
      where: { at: 'part', depth: 1, distanceMillimetres: channel === 4 ? 10 : 75 },
    })),
  });
  cable.onData((bytes) => board.receive(bytes));
  const root = mkdtempSync(join(tmpdir(), 'simulation-'));
  const folder = join(root, 'station');
  const openStore = (begin: boolean): RecordStore =>
    openRecord({ folder, begin, program: 'simulation', now: clock.wall, disk });

  const world: World = {
    folder,
    joint: simulatedJoint,
    truths: [],
    told: [],
    notes: [],
    fate: [],
    record: openStore(true),
    pipeline: undefined as unknown as Pipeline,
    seconds,
    end,
    remove: () => rmSync(root, { recursive: true, force: true }),
  };
  let eye = positionOf(folder);
  let link: Link;
  let plugged = true;
  let pass = 0;
  let passRuns = false;
  const wires = new Map<number, { mishap: MishapKind; left: number }>();
  const lasting = { out: 0, failing: 0 };

  const start = (): void => {
    world.pipeline = createPipeline({ store: world.record, clock, rules: 'simulation', station: 'simulation' });
    world.pipeline.onStep((step) => world.told.push({ step, positionOnDisk: eye.now(), at: world.pipeline.now() }));
    const onEvent = world.pipeline.wire;
    const book = createBoardBook(clock);
    for (const [id, before] of world.pipeline.heardBefore()) book.resume(id, before);
    link = openLink({ path: 'sim', openPort: cable.openPort, clock, platform: 'linux', book, onEvent });
  };

  const act = (body: Act): Promise<void> => {
    const noted: Noted | undefined = body.kind === 'note' ? { text: body.text, outcome: 'waiting' } : undefined;
    if (noted !== undefined) world.notes.push(noted);
    return world.pipeline.act('sim', { who: { name: 'Ada' }, act: body }).then(
      () => {
        if (noted !== undefined) noted.outcome = 'recorded';
      },
      (cause: unknown) => {
        if (noted === undefined) return;
        noted.outcome = cause instanceof NotRecording && cause.recorded !== undefined ? 'kept' : 'refused';
      },
    );
  };

  const truth = (at: number, connected: boolean): Truth => ({
    at,
    celsius: channels.map((channel) => board.celsius(channel)),
    flagged: channels.map((channel) => wires.has(channel) && wires.get(channel)!.mishap !== 'detached'),
    connected,
  });

  const restart = async (): Promise<void> => {
    world.fate.push(`${world.truths.length}: restart`);
    disk.heal();
    lasting.failing = 0;
    await link.close();
    world.pipeline.close();
    world.record.close();
    eye.close();
    // The board runs on meanwhile, and nobody hears it: what it measures is asked for afterwards.
    for (let left = Math.floor(chance() * 4000); left > 0; left -= periodMilliseconds) {
      clock.move(Math.min(left, periodMilliseconds));
      board.advance(Math.min(left, periodMilliseconds));
      world.truths.push(truth(clock.wall(), false));
    }
    world.record = openStore(false);
    eye = positionOf(folder);
    start();
    await turns();
  };

  /** One of the things that may happen in a second. */
  const happen = async (): Promise<void> => {
    const dice = chance();
    const did = (what: string): void => void world.fate.push(`${world.truths.length}: ${what}`);
    if (dice < 0.02) {
      const channel = channels[Math.floor(chance() * channels.length)]!;
      const mishap = mishaps[Math.floor(chance() * mishaps.length)]!;
      did(`${mishap} on ${channel}`);
      wires.set(channel, { mishap, left: 1 + Math.floor(chance() * 30) });
      board.inject({ kind: 'channel', channel, mishap });
    } else if (dice < 0.025) {
      did('the board starts again');
      board.reboot();
    } else if (dice < 0.032 && plugged) {
      did('the cable comes out');
      plugged = false;
      lasting.out = 1 + Math.floor(chance() * 20);
      cable.unplug();
    } else if (dice < 0.045) {
      did('noise');
      board.inject({ kind: 'garbage', bytes: 1 + Math.floor(chance() * 600) });
    } else if (dice < 0.055) {
      did('a line breaks off');
      board.inject({ kind: 'cut line' });
    } else if (dice < 0.065 && lasting.failing === 0) {
      const fault = faults[Math.floor(chance() * faults.length)]!;
      did(`the disk fails ${fault}`);
      lasting.failing = 1 + Math.floor(chance() * 8);
      disk.plan(1 + Math.floor(chance() * 12), fault, chance() < 0.5 ? 10 : 13);
    } else if (dice < 0.068) await restart();
    else if (dice < 0.09) void act({ kind: 'note', text: `note ${world.notes.length}` });
    else if (dice < 0.1) heat(chance() < 0.6);
    else if (dice < 0.12) weld();
  };

  const heat = (on: boolean): void => {
    world.fate.push(`${world.truths.length}: heat ${on ? 'on' : 'off'}`);
    board.heater({ on, setPointCelsius: 90 });
    void act({ kind: 'heat', state: on ? 'on' : 'off' });
  };

  const weld = (): void => {
    world.fate.push(`${world.truths.length}: ${passRuns ? 'pass end' : 'pass start'}`);
    if (passRuns) void act({ kind: 'pass end', pass: String(pass) });
    else {
      pass += 1;
      const ago = chance() < 0.3 ? { happenedAt: world.pipeline.now() - Math.floor(chance() * 60_000) } : {};
      void act({ kind: 'pass start', pass: String(pass), passKind: 'fill', welder: 'Bo', ...ago });
    }
    passRuns = !passRuns;
    board.arc(passRuns);
  };

  const mend = (): void => {
    for (const [channel, wire] of wires) {
      wire.left -= 1;
      if (wire.left > 0) continue;
      wires.delete(channel);
      board.inject({ kind: 'channel', channel, mishap: 'none' });
    }
    lasting.out -= 1;
    if (!plugged && lasting.out <= 0) {
      plugged = true;
      cable.plugIn();
    }
    lasting.failing -= 1;
    if (lasting.failing <= 0) {
      lasting.failing = 0;
      disk.heal();
    }
  };

  /** A second passes, then what the board said in it arrives. */
  const second = async (): Promise<void> => {
    clock.move(periodMilliseconds);
    const bytes = board.advance(periodMilliseconds);
    world.truths.push(truth(world.pipeline.now(), plugged));
    cable.write(bytes);
    await turns();
  };

  async function seconds(count: number): Promise<void> {
    for (let passed = 0; passed < count; passed += 1) {
      mend();
      await happen();
      await second();
    }
  }

  async function end(): Promise<void> {
    disk.heal();
    cable.plugIn();
    plugged = true;
    // Long enough for the last question for what is missing to be given up.
    for (let passed = 0; passed < 15; passed += 1) await second();
    const closing = act({ kind: 'close' });
    await second();
    await closing;
    await link.close();
    world.pipeline.close();
    eye.close();
  }

  start();
  for (let passed = 0; passed < 3; passed += 1) await second();
  const opening = world.pipeline.open(world.joint, 'Ada');
  await second();
  await opening;
  await Promise.all([act({ kind: 'accept', subject: 'procedure below calculation', reason: 'simulation' }), second()]);
  heat(true);
  return world;
}

/** Those that a board can tell; what it sends in good faith nobody can know to be wrong. */
const mishaps: readonly MishapKind[] = [
  'open',
  'detached',
  'short-to-ground',
  'short-to-supply',
  'cold-junction-out-of-range',
  'out-of-range',
];

const turns = async (): Promise<void> => {
  for (let turn = 0; turn < 4; turn += 1) await new Promise((resolve) => setImmediate(resolve));
};
