/**
 * A search among 10,000 joints of a record, by words that stand in few of them and by filters; and the counts over all. The baseline
 * goes through the bytes of all their entries for one word, as whoever had no index would.
 */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { run } from '../../server/errands/errand.ts';
import type { EntryItem } from '../../server/ledger/item.ts';
import { type Instant, instant } from '../../server/measure/quantity.ts';
import type { Asked } from '../../server/past/search.ts';
import { readProgram } from '../../server/program.ts';
import { openRecordReadOnly } from '../../server/record/read.ts';
import { openRecord } from '../../server/record/store.ts';
import type { Act } from '../../server/weld/entry.ts';
import { plainJoint, plainPart } from '../support/plain-joint.ts';
import type { BenchSet } from './bench.ts';

const joints = 10_000;
const begins = Date.UTC(2020, 0, 6);
const names = ['Runa Teld', 'Odd Varen', 'Imke Sorel', 'Jörg Aldén', 'Bo Lind', 'Tove Ask'];

export async function prepareBench(): Promise<BenchSet> {
  const folder = mkdtempSync(join(tmpdir(), 'bench-search-'));
  keep(folder);
  const reader = openRecordReadOnly(folder);
  const program = readProgram();
  const find = async (asked: Asked, found: number): Promise<void> => {
    const view = await run({ kind: 'find', asked, from: 0, count: 50 }, reader, program);
    if (!('searched' in view) || view.searched !== joints || view.found !== found)
      throw new Error(`${JSON.stringify(asked)} did not find ${found}`);
  };
  const began = performance.now();
  await find({ words: 'nothing of the kind' }, 0);
  const drawn = ((performance.now() - began) / 1000).toFixed(1);
  const row = (name: string, asked: Asked, found: number) => ({
    name,
    amount: joints,
    run: () => find(asked, found),
    mostMilliseconds: 200,
    of: 'p99' as const,
  });
  return {
    title: `Search among ${joints} joints (all cards drawn out of the chains once, in ${drawn} s)`,
    unit: 'joints',
    baseline: {
      name: 'the bytes of all entries gone through for a word',
      amount: joints,
      run: () => {
        let found = 0;
        for (const { chain } of reader.chains())
          for (const { bytes } of reader.stored(chain)) if (Buffer.from(bytes).includes('H-07777')) found += 1;
        if (found === 0) throw new Error('the baseline found nothing');
      },
    },
    rows: [
      row('a heat number', { words: 'h-07777' }, 1),
      row(
        'a person in part, capitals and accents aside',
        { words: 'ALDEN jorg' },
        count((n) => has(n, 'Jörg Aldén')),
      ),
      row(
        'words and filters',
        { words: 'wps-3', verdict: 'does-not-comply', in: { person: 'varen' }, from: day(2000) },
        count((n) => n % 25 === 3 && n % 6 === 0 && has(n, 'Odd Varen') && endOf(n) >= day(2000)),
      ),
      row('all of them', {}, joints),
      {
        name: 'counts over all of them',
        amount: joints,
        run: async () => {
          const counted = await run({ kind: 'statistics', asked: {}, period: 'month', zone: 'UTC' }, reader, program);
          if (!('sources' in counted) || counted.joints !== joints) throw new Error('not all were counted');
        },
      },
    ],
    close: () => {
      reader.close();
      rmSync(folder, { recursive: true, force: true });
    },
  };
}

const count = (fits: (n: number) => boolean): number => Array.from({ length: joints }, (_, n) => n).filter(fits).length;
const has = (n: number, name: string): boolean => whoOf(n) === name || welderOf(n) === name;
const whoOf = (n: number): string => names[n % 5]!;
const welderOf = (n: number): string => names[(n + 1) % 6]!;
const endOf = (n: number): number => begins + n * 25_000_000 + 130 * 60_000;
const day = (n: number): Instant => instant(begins + n * 86_400_000);

/** Jobs of a few passes, three or four a day, with their acts and what was concluded; readings are no matter of a search. */
function keep(folder: string): void {
  const store = openRecord({ folder, begin: true, program: 'bench', now: () => day(0) });
  const perCommit = 200;
  for (let from = 0; from < joints; from += perCommit)
    store.commit(Array.from({ length: perCommit }, (_, n) => job(from + n)).flat());
  store.close();
}

function job(n: number): EntryItem[] {
  const chain = `seam-${n}`;
  const at = (minute: number): Instant => instant(begins + n * 25_000_000 + minute * 60_000);
  const who = whoOf(n);
  const entry = (minute: number, kind: string, body: unknown, by = who): EntryItem => ({
    ...{ type: 'entry', chain, at: at(minute), who: by, class: 'input', kind, body },
    ...(by === 'station' ? {} : { role: 'welder' }),
  });
  const act = (minute: number, body: Act): EntryItem => entry(minute, body.kind, body);
  const said = (minute: number, kind: string, body: object): EntryItem => ({
    ...entry(minute, kind, { kind, ...body }, 'station'),
    class: 'conclusion',
  });
  const heat = `H-${`${n}`.padStart(5, '0')}`;
  const [analysis] = plainPart().analyses;
  const joint = plainJoint({
    id: chain,
    title: `Seam ${n} of frame ${n % 700}`,
    parts: [plainPart({ grade: n % 3 === 0 ? 'S690QL' : 'S355J2', analyses: [{ ...analysis!, heat }] })],
    procedure: {
      id: `WPS-${n % 25}`,
      revision: `${n % 3}`,
      decisionRule: 'simple acceptance',
      interpassMaximumCelsius: 250,
    },
  });
  const source = { kind: 'measured', detail: 'board PB-1' };
  const opened = {
    kind: 'opened',
    joint,
    source,
    periodMilliseconds: 1000,
    openedBy: who,
    rules: 'bench',
    station: 'bench',
  };
  const finding = {
    key: `soak not met//1/${at(60)}`,
    kind: 'soak not met',
    severity: 'nonconformity',
    pass: '1',
    from: at(60),
    knownAt: at(60),
  };
  const passes = Array.from({ length: 6 }, (_, index) => [
    act(60 + index * 10, { kind: 'pass start', pass: `${index + 1}`, passKind: 'fill', welder: welderOf(n) }),
    act(65 + index * 10, { kind: 'pass end', pass: `${index + 1}` }),
  ]).flat();
  return [
    entry(0, 'opened', opened, 'station'),
    act(1, { kind: 'heat', state: 'on' }),
    ...(['heating', 'equalising', 'ready'] as const).map((phase, index) => said(2 + index * 20, 'phase', { phase })),
    ...passes,
    ...(n % 6 === 0 ? [said(60, 'finding', { change: 'opened', finding })] : []),
    act(130, { kind: 'close' }),
    said(130, 'verdict', { verdict: n % 6 === 0 ? 'does-not-comply' : 'complies' }),
  ];
}
