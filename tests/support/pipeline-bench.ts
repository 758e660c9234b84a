/** A pipeline over a real record in a temporary folder, on a clock that the test moves; boards are words of the wire. */
import { join } from 'node:path';
import { onTestFinished } from 'vitest';
import type { Hello, SampleValue } from '../../firmware-protocol/codec/frame.ts';
import type { Item } from '../../server/ledger/item.ts';
import { createPipeline, type Pipeline, type Step, type Store } from '../../server/pipeline.ts';
import type { Disk } from '../../server/record/database.ts';
import { openRecord, type RecordStore } from '../../server/record/store.ts';
import type { FoldBeside } from '../../server/trip/fold-beside.ts';
import type { Act } from '../../server/weld/entry.ts';
import type { Joint } from '../../server/weld/joint.ts';
import type { Probe } from '../../server/weld/probe.ts';
import { createMovedClock, type MovedClock } from './moved-clock.ts';
import { plainJoint, plainProcedure } from './plain-joint.ts';
import { temporaryFolder } from './record.ts';

export interface PipelineBench {
  readonly folder: string;
  readonly clock: MovedClock;
  record: RecordStore;
  pipeline: Pipeline;
  /** Every step that was told, in order. */
  readonly steps: Step[];
  /** Every list handed to the record, in order, the refused ones too. */
  readonly commits: (readonly Item[])[];
  /** The record refuses commits while this holds words. */
  refuse: string | undefined;
  refuseSealing: string | undefined;
  hello(board: string, changes?: Partial<Hello>, port?: string): void;
  /** Channel n reads the n-th temperature, in degrees; undefined is an open circuit. */
  sample(board: string, celsius: readonly (number | undefined)[]): void;
  link(board: string, state: 'lost' | 'open', port?: string): void;
  /** Both wait until the answer is there, moving the clock on by the time of a group. */
  open(joint: Joint): Promise<number>;
  act(joint: string, act: Act, who?: string): Promise<number>;
  /** A second of every board that has said hello, all channels at the given temperature; then a second passes. */
  seconds(count: number, celsius: number): void;
  /** Closes the station and starts another on the same folder. Boards run on. */
  restart(options?: { readonly awayMilliseconds?: number }): void;
}

export const group = 100;

export const probeOn = (board: string, channel: number, changes: Partial<Probe> = {}): Probe => ({
  id: `${board}-${channel}`,
  board,
  channel,
  thermocouple: 'K',
  use: 'zone',
  place: { part: 'plate', side: channel % 2 === 1 ? 'A' : 'B', face: 'back', distanceMillimetres: 75 },
  ...changes,
});

/** Two zone probes for each board, opposite the heat: nothing but the minimum of 150 °C to wait for. */
export const jointOn = (id: string, ...boards: string[]): Joint =>
  plainJoint({
    id,
    procedure: plainProcedure,
    probes: boards.flatMap((board) => [probeOn(board, 1), probeOn(board, 2)]),
  });

/** `foldBeside`: who folds what reaches far back beside the trip; absent: the trip itself. */
export function pipelineBench(disk?: Disk, foldBeside?: FoldBeside): PipelineBench {
  const folder = join(temporaryFolder(), 'station');
  const clock = createMovedClock();
  const boards = new Map<string, { hello: Hello; port: string; startedAt: number; sequence: number }>();
  const openStore = (begin: boolean): RecordStore =>
    openRecord({ folder, begin, program: 'test', now: clock.wall, ...(disk === undefined ? {} : { disk }) });

  const bench: PipelineBench = {
    folder,
    clock,
    record: openStore(true),
    pipeline: undefined as unknown as Pipeline,
    steps: [],
    commits: [],
    refuse: undefined,
    refuseSealing: undefined,
    hello(board, changes = {}, port = `port-of-${board}`) {
      const before = boards.get(board);
      const boot = changes.boot ?? before?.hello.boot ?? 1;
      const again = before !== undefined && before.hello.boot === boot;
      const startedAt = again ? before.startedAt : clock.monotonic();
      const ticks = clock.monotonic() - startedAt;
      const hello: Hello = { ...(before?.hello ?? plainHello(board)), ...changes, boot, ticks };
      boards.set(board, { hello, port, startedAt, sequence: again ? before.sequence : 0 });
      bench.pipeline.wire({ type: 'hello', port, hello, arrivedAt: clock.wall() });
    },
    sample(board, celsius) {
      const known = boards.get(board)!;
      known.sequence += 1;
      bench.pipeline.wire({
        type: 'sample',
        port: known.port,
        board,
        sample: {
          kind: 'sample',
          boot: known.hello.boot,
          sequence: known.sequence,
          ticks: clock.monotonic() - known.startedAt,
          resent: false,
          inputs: 0,
          values: celsius.map(valueOn),
        },
        arrivedAt: clock.wall(),
      });
    },
    link: (board, state, port = `port-of-${board}`) =>
      bench.pipeline.wire({ type: 'link', port, board, state, cause: 'test', arrivedAt: clock.wall() }),
    open: (joint) => waited(bench.pipeline.open(joint, 'R. Ahlgren')),
    act: (joint, act, who = 'R. Ahlgren') => waited(bench.pipeline.act(joint, { who: { name: who }, act })),
    seconds(count, celsius) {
      for (let second = 0; second < count; second += 1) {
        for (const [board, { hello }] of boards)
          bench.sample(
            board,
            hello.channels.map(() => celsius),
          );
        clock.move(1000);
      }
    },
    restart({ awayMilliseconds = 0 } = {}) {
      bench.pipeline.close();
      bench.record.close();
      clock.move(awayMilliseconds);
      bench.record = openStore(false);
      start();
    },
  };

  const waited = async (answer: Promise<number>): Promise<number> => {
    clock.move(group);
    return answer;
  };
  const store: Store = {
    commit(items) {
      bench.commits.push(items);
      if (bench.refuse !== undefined) throw new Error(bench.refuse);
      return bench.record.commit(items);
    },
    sealDue(now) {
      if (bench.refuseSealing !== undefined) throw new Error(bench.refuseSealing);
      bench.record.sealDue(now);
    },
    chains: () => bench.record.chains(),
    inputs: (chain) => bench.record.inputs(chain),
    entries: (chain) => bench.record.entries(chain),
  };
  const start = (): void => {
    bench.pipeline = createPipeline({
      store,
      clock,
      rules: 'test',
      station: 'test',
      ...(foldBeside === undefined ? {} : { foldBeside }),
    });
    bench.pipeline.onStep((step) => bench.steps.push(step));
  };
  start();
  onTestFinished(() => {
    bench.pipeline.close();
    bench.record.close();
  });
  return bench;
}

const plainHello = (board: string): Hello => ({
  kind: 'hello',
  revision: 1,
  board,
  firmware: 'test-1',
  simulated: false,
  boot: 1,
  ticks: 0,
  periodMilliseconds: 1000,
  channels: [1, 2].map((channel) => ({ channel, form: 'temperature', thermocouple: 'K' })),
  inputs: 0,
  linesKept: 0,
});

const valueOn = (celsius: number | undefined, index: number): SampleValue =>
  celsius === undefined
    ? { channel: index + 1, faults: ['open'], reading: { form: 'none' } }
    : {
        channel: index + 1,
        faults: [],
        reading: { form: 'temperature', centiCelsius: Math.round(celsius * 100) },
      };
