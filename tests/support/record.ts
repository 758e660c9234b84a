/** A record in a folder of its own, scans and entries to put into it, and a clock that the test moves. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { onTestFinished } from 'vitest';
import type { EntryItem, Item, ScanItem } from '../../server/ledger/item.ts';
import { type Instant, instant } from '../../server/measure/quantity.ts';
import type { Disk } from '../../server/record/database.ts';
import type { Signer } from '../../server/record/signer.ts';
import { openRecord, type RecordStore } from '../../server/record/store.ts';
import type { Act, Input, StationEvent } from '../../server/weld/entry.ts';
import type { Scan, ScanValue } from '../../server/weld/scan.ts';
import { plainJoint } from './plain-joint.ts';

/** Monday, 2 March 2026, 06:00 UTC. */
export const dayBegins = Date.UTC(2026, 2, 2, 6, 0, 0);
/** So many milliseconds after the day began. */
export const at = (milliseconds: number): Instant => instant(dayBegins + milliseconds);

export const temporaryFolder = (): string => {
  const folder = mkdtempSync(join(tmpdir(), 'record-'));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  return folder;
};

export interface Bench {
  readonly folder: string;
  now: Instant;
  store: RecordStore;
  /** Closes the record and opens it again. */
  reopen(): void;
}

/** With `signer` the record is signed; without it is one of before. */
export const bench = (disk?: Disk, signer?: (keys: readonly string[]) => Signer): Bench => {
  const folder = join(temporaryFolder(), 'station');
  const made: Bench = { folder, now: at(0), store: undefined as unknown as RecordStore, reopen: () => undefined };
  const open = (begin: boolean): RecordStore =>
    openRecord({
      ...{ folder, begin, program: 'test 1', now: () => made.now },
      ...(disk === undefined ? {} : { disk }),
      ...(signer === undefined ? {} : { signer }),
    });
  made.store = open(true);
  made.reopen = () => {
    made.store.close();
    made.store = open(false);
  };
  onTestFinished(() => made.store.close());
  return made;
};

export const value = (probe: string, temperature: number): ScanValue =>
  ({
    probe,
    quality: 'good',
    temperature,
    raw: { form: 'voltage', deciMicrovolts: Math.round(temperature * 0.4), coldJunction: 23_500 },
  }) as ScanValue;

/** The n-th scan of a board, one a second, measured 40 ms before it arrives. */
export const scan = (n: number, changes: Partial<Scan> = {}): Scan => ({
  board: 'board-1',
  boot: 3,
  sequence: n,
  ticks: 5000 + n * 1000,
  measuredAt: at(n * 1000 - 40),
  arrivedAt: at(n * 1000),
  late: false,
  inputs: 0,
  values: [value('A1', 150_000 + n), value('A2', 149_000 + (n % 3) * 10)],
  ...changes,
});

export const scanItem = (n: number, chain = 'joint-1', changes: Partial<Scan> = {}): ScanItem => ({
  type: 'scan',
  chain,
  scan: scan(n, changes),
});

export const act = (n: number, body: Act, chain = 'joint-1', who = 'R. Ahlgren'): EntryItem => ({
  type: 'entry',
  chain,
  at: at(n * 1000),
  who,
  role: 'welder',
  class: 'input',
  kind: body.kind,
  body,
});
export const note = (n: number, text: string, chain = 'joint-1'): EntryItem => act(n, { kind: 'note', text }, chain);

export const station = (n: number, event: StationEvent, chain = 'joint-1'): EntryItem => ({
  type: 'entry',
  chain,
  at: at(n * 1000),
  who: 'station',
  class: 'input',
  kind: event.kind,
  body: event,
});

export const opened = (n: number, chain = 'joint-1', source: 'simulated' | 'measured' = 'simulated'): EntryItem =>
  station(
    n,
    {
      kind: 'opened',
      joint: plainJoint({ id: chain }),
      source: { kind: source, detail: 'board-1 says so' },
      periodMilliseconds: 1000,
      openedBy: 'R. Ahlgren',
      rules: 'test',
      station: 'test',
    },
    chain,
  );

export const verdict = (n: number, said: string, chain = 'joint-1'): EntryItem => ({
  type: 'entry',
  chain,
  at: at(n * 1000),
  who: 'station',
  class: 'conclusion',
  kind: 'verdict',
  body: { kind: 'verdict', verdict: said },
});

/** An ordinary hour's beginning: opened, scans, acts between them, closed with a verdict. */
export const shortJob = (chain = 'joint-1'): Item[] => [
  opened(0, chain),
  ...[1, 2, 3].map((n) => scanItem(n, chain)),
  act(4, { kind: 'heat', state: 'on' }, chain),
  ...[5, 6, 7, 8].map((n) => scanItem(n, chain)),
  note(9, 'wind from the door', chain),
  scanItem(10, chain),
  act(11, { kind: 'close' }, chain),
  verdict(11, 'cannot-be-judged', chain),
];

export const inputsOf = (store: Pick<RecordStore, 'inputs'>, chain = 'joint-1'): Input[] => [...store.inputs(chain)];
