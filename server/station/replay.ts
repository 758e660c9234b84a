/**
 * A capture of a port through the same trip as on the day: link, reading, judgement, record, on a clock that shows the
 * time of the capture. What comes of it is marked as replayed and never as measured.
 */
import type { Assessment } from '../judgement/assessment.ts';
import { createPipeline, type Store } from '../pipeline.ts';
import type { Connection } from '../weld/connection/connection.ts';
import type { Hole } from '../weld/hole.ts';
import type { Joint } from '../weld/joint.ts';
import type { Capture } from '../wire/capture.ts';
import { createCapturePort } from '../wire/capture-port.ts';
import { openConnection } from '../wire/connection/open-connection.ts';
import { createPlayedLine } from '../wire/connection/played-line.ts';
import type { LinkCounts, WireEvent } from '../wire/event.ts';
import { type Link, openLink } from '../wire/serial-link.ts';
import type { FastClock } from './fast-clock.ts';

export interface ReplayOptions {
  readonly capture: Capture;
  /** For the source of the record: the name of the file, for instance. */
  readonly name: string;
  readonly joint: Joint;
  /** How the line was read, where no board was on it. */
  readonly connection?: Connection;
  readonly openedBy: string;
  readonly store: Store;
  /** Stands at the beginning of the capture. */
  readonly clock: FastClock;
  readonly rules: string;
  readonly platform: string;
}

export interface Replayed {
  readonly assessment: Assessment;
  readonly counts: ReplayedCounts;
  /** Boards that said hello, or instruments that were opened. */
  readonly boards: readonly string[];
  readonly samples: number;
  readonly late: number;
  readonly holes: readonly Hole[];
  /** Each change of the link, with its time since the beginning, milliseconds. */
  readonly link: readonly { readonly milliseconds: number; readonly state: string; readonly cause: string }[];
}

/** Of a board all that its link counts; of instruments what was read, together. */
export interface ReplayedCounts extends LinkCounts {
  readonly faults: Readonly<Record<string, number>>;
  readonly openings?: number;
  readonly losses?: number;
}

interface Playing {
  readonly link: Pick<Link, 'close'>;
  play(): Promise<void>;
  counts(): ReplayedCounts;
}

const step = 50;
/** Time in which the last reading is committed and what is still asked for is given up. */
const afterwards = 15_000;

export async function replay(options: ReplayOptions): Promise<Replayed> {
  const { capture, clock, joint, store, rules } = options;
  const detail = `capture ${options.name} of ${capture.port}, begun ${new Date(capture.begun).toISOString()}`;
  const pipeline = createPipeline({ store, clock, rules, station: 'replay', played: { kind: 'replayed', detail } });
  const events: WireEvent[] = [];
  const began = clock.wall();
  const { link, play, counts } = (options.connection === undefined ? boardOf : instrumentsOf)(options, (event) => {
    events.push(event);
    pipeline.wire(event);
  });
  const opening = pipeline.open(joint, options.openedBy);
  await move(clock, step * 4);
  await opening;
  const length = (capture.events.at(-1)?.milliseconds ?? 0) + afterwards;
  const playing = play();
  for (let passed = 0; passed < length; passed += step) await move(clock, step);
  await playing;
  const closing = link.close();
  await move(clock, 10_000);
  await closing;
  pipeline.close();
  const samples = events.flatMap((event) => (event.type === 'sample' ? [event.sample] : []));
  const told = events.filter(({ type }) => type === 'told').length;
  return {
    assessment: pipeline.run(joint.id)!.assessment,
    counts: counts(),
    boards: [...new Set(events.flatMap((event) => (event.type === 'hello' ? [event.hello.board] : [])))],
    samples: samples.length + told,
    late: samples.filter(({ resent }) => resent).length,
    holes: events.flatMap((event) => (event.type === 'hole' ? [event.hole] : [])),
    link: events.flatMap((event) =>
      event.type === 'link' ? [{ milliseconds: event.arrivedAt - began, state: event.state, cause: event.cause }] : [],
    ),
  };
}

type Hear = (event: WireEvent) => void;

function boardOf({ capture, clock, platform }: ReplayOptions, onEvent: Hear): Playing {
  const port = createCapturePort(clock, capture);
  const link = openLink({ path: capture.port, openPort: port.openPort, clock, platform, onEvent });
  return {
    link,
    play: () => port.play(() => link.retry()),
    counts: () => {
      const { faults, ...counts } = link.counts();
      return { ...counts, faults: { ...faults } as Record<string, number> };
    },
  };
}

function instrumentsOf({ capture, connection, clock, platform }: ReplayOptions, onEvent: Hear): Playing {
  const line = createPlayedLine(clock, capture);
  const nothing = () => Promise.reject(new Error('a capture holds one line and nothing else'));
  const link = openConnection({
    connection: connection!,
    outside: {
      serial: () => line.openPort,
      network: line.openPort,
      modbusTcp: nothing,
      files: { list: nothing, read: nothing },
    },
    clock,
    platform,
    onEvent,
  });
  const each = () => link.instruments.map(({ board }) => link.counts(board));
  return {
    link,
    play: line.play,
    counts: () => {
      const faults: Record<string, number> = {};
      for (const { what, times } of each().flatMap(({ errors }) => errors)) faults[what] = (faults[what] ?? 0) + times;
      const linesBad = Object.values(faults).reduce((sum, times) => sum + times, 0);
      const linesGood = each().reduce((sum, { good }) => sum + good, 0);
      return { linesGood, linesBad, linesMissing: 0, bytesDropped: 0, faults };
    },
  };
}

/** Time passes, and what is under way comes to rest. */
async function move(clock: FastClock, milliseconds: number): Promise<void> {
  clock.move(milliseconds);
  for (let turn = 0; turn < 3; turn += 1) await new Promise((resume) => setImmediate(resume));
}
