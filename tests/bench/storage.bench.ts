/**
 * What a year of one joint a day takes: 16 probes at one reading a second for ten hours, played by the emulated board with its
 * noise through the whole trip, with heat and passes. Measured on some of those hours and scaled; everything in the file
 * counts: readings, entries, conclusions, signatures, indices, the room between them. Beside it the same readings as CSV through
 * gzip -9, a row a frame; and how fast the record is verified, against unpacking and hashing the same bytes and nothing else.
 */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { type BlockBody, openBytes } from '../../server/ledger/block.ts';
import { readEnvelope } from '../../server/ledger/envelope.ts';
import { createPipeline, type Pipeline } from '../../server/pipeline.ts';
import { sha256 } from '../../server/record/ed25519.ts';
import { inspectRecord } from '../../server/record/inspection.ts';
import { signerBeside } from '../../server/record/key-file.ts';
import { unpackEntry } from '../../server/record/packed-entry.ts';
import { openRecordReadOnly } from '../../server/record/read.ts';
import { sqliteDisk } from '../../server/record/sqlite.ts';
import { openRecord } from '../../server/record/store.ts';
import { createFastClock } from '../../server/station/fast-clock.ts';
import type { Act } from '../../server/weld/entry.ts';
import { createInProcessPort } from '../../server/wire/in-process-port.ts';
import { openLink } from '../../server/wire/serial-link.ts';
import type { BenchSet, Fact } from './bench.ts';
import { boardName, channels, sixteenChannelBoard, sixteenChannelJoint } from './sixteen-channels.ts';

const playedHours = 3;
const jobHours = 10;
const jobsAYear = 250;
const bytesAReadingMost = 3;
const passSeconds = { every: 900, arc: 300 };

export async function prepareBench(): Promise<BenchSet> {
  const folder = join(mkdtempSync(join(tmpdir(), 'bench-storage-')), 'station');
  const empty = await play(folder, playedHours * 3600);
  const full = pagesOf(folder);
  const readings = countReadings(folder);
  const packed = rowsOf(folder);
  return {
    title: `A year of one joint a day: ${channels.length} probes at 1 Hz, ${jobHours} h, ${jobsAYear} days; ${playedHours} h of it played`,
    facts: sizes(empty, full, readings, gzipSync(csvOf(folder), { level: 9 }).length),
    unit: 'readings',
    baseline: {
      name: 'the same bytes unpacked and hashed',
      amount: readings,
      run: () => {
        for (const { entry, block } of packed) {
          const bytes = unpackEntry(entry);
          sha256(bytes);
          if (block !== null) sha256(openBytes(readEnvelope(bytes).body as BlockBody, block));
        }
      },
    },
    rows: [
      {
        name: 'the record verified: chains, signatures, readings, documents',
        amount: readings,
        leastOfBaseline: 1 / 3,
        run: () => {
          if (!inspectRecord(folder).ok) throw new Error('the record is not intact');
        },
      },
    ],
    milliseconds: 4000,
    close: () => rmSync(join(folder, '..'), { recursive: true, force: true }),
  };
}

interface Pages {
  readonly used: number;
  readonly file: number;
}

/** What grows with each job, and what the file takes once. */
function sizes(empty: Pages, full: Pages, readings: number, gzip: number): Fact[] {
  const once = full.file - full.used + empty.used;
  const each = (full.used - empty.used) / readings;
  const aYear = channels.length * 3600 * jobHours * jobsAYear;
  const all = each + once / aYear;
  const csv = gzip / readings;
  return [
    {
      text: `${all.toFixed(2)} bytes a reading, all in (${((all * aYear) / 1e6).toFixed(0)} MB a year; limit ${bytesAReadingMost})`,
      isKept: all <= bytesAReadingMost,
    },
    {
      text: `${(all / csv).toFixed(2)} of gzip -9 of a CSV with the same information (${csv.toFixed(2)} bytes a reading; limit 1)`,
      isKept: all <= csv,
    },
  ];
}

/** Answers with the size of the record before the job. */
async function play(folder: string, seconds: number): Promise<Pages> {
  const clock = createFastClock(1000 * 24 * 3_600_000);
  const record = openRecord({
    ...{ folder, begin: true, program: 'bench', now: () => clock.wall(), signer: signerBeside(folder) },
  });
  const empty = pagesOf(folder);
  const pipeline = createPipeline({ store: record, clock, rules: 'bench', station: 'bench' });
  const board = sixteenChannelBoard(1000);
  const cable = createInProcessPort();
  cable.onData((bytes) => board.receive(bytes));
  const link = openLink({ path: 'bench', openPort: cable.openPort, clock, platform: 'linux', onEvent: pipeline.wire });
  const second = async (): Promise<void> => {
    const bytes = board.advance(1000);
    const expected = link.counts().linesGood + (bytes.match(/\n/g)?.length ?? 0);
    cable.write(bytes);
    for (let turns = 0; link.counts().linesGood < expected && turns < 20; turns += 1)
      await new Promise((resume) => setImmediate(resume));
    clock.move(1000);
  };
  const done = async (asked: Promise<number>): Promise<void> => {
    clock.move(100);
    await asked;
  };
  const { id } = sixteenChannelJoint();
  const act = (act: Act): Promise<void> =>
    done(pipeline.act(id, { who: { name: 'Imke Sorel', role: 'heater operator' }, act }));
  for (let tries = 0; !isHeard(pipeline) && tries < 60; tries += 1) await second();
  await done(pipeline.open(sixteenChannelJoint(), 'Imke Sorel'));
  await act({ kind: 'heat', state: 'on' });
  board.heater({ on: true, setPointCelsius: 180 });
  for (let now = 0; now < seconds; now += 1) {
    await second();
    const pass = String(1 + Math.floor(now / passSeconds.every));
    const into = now % passSeconds.every;
    if (now < passSeconds.every || (into !== 0 && into !== passSeconds.arc)) continue;
    board.arc(into === 0);
    if (into === 0) await act({ kind: 'pass start', pass, passKind: 'fill', welder: 'Odd Varen' });
    else await act({ kind: 'pass end', pass, volts: 23.5, amperes: 160, runOutMillimetres: 355, arcSeconds: 118 });
  }
  pipeline.close();
  await link.close();
  record.close();
  return empty;
}

const isHeard = (pipeline: Pipeline): boolean => pipeline.intake.boards.byId.has(boardName);

const reading = <T>(folder: string, work: (reader: ReturnType<typeof openRecordReadOnly>) => T): T => {
  const reader = openRecordReadOnly(folder);
  try {
    return work(reader);
  } finally {
    reader.close();
  }
};

function pagesOf(folder: string): Pages {
  const database = sqliteDisk.open(join(folder, 'record.sqlite'), 'read');
  const number = (name: string): number => Number(Object.values(database.get(`PRAGMA ${name}`)!)[0]);
  const [size, count, free] = ['page_size', 'page_count', 'freelist_count'].map(number) as [number, number, number];
  database.close();
  return { used: size * (count - free), file: size * count };
}

function rowsOf(folder: string): readonly { readonly entry: Uint8Array; readonly block: Uint8Array | null }[] {
  const database = sqliteDisk.open(join(folder, 'record.sqlite'), 'read');
  const rows = database.all<{ entry: Uint8Array; block: Uint8Array | null }>(
    'SELECT e.bytes AS entry, b.packed AS block FROM entries e LEFT JOIN blocks b ON b.chain = e.chain AND b.seq = e.seq',
  );
  database.close();
  return rows;
}

const countReadings = (folder: string): number =>
  reading(folder, (reader) => {
    let count = 0;
    for (const input of reader.inputs(sixteenChannelJoint().id))
      if (input.type === 'scan') count += input.scan.values.length;
    return count;
  });

/** Time, and of each probe raw number, cold junction and quality: what the record keeps of a frame, less what follows from it. */
const csvOf = (folder: string): string =>
  reading(folder, (reader) => {
    const rows: string[] = [];
    for (const input of reader.inputs(sixteenChannelJoint().id)) {
      if (input.type !== 'scan') continue;
      const { measuredAt, values } = input.scan;
      const cells = values.flatMap(({ raw, quality }): (number | string)[] =>
        raw.form === 'voltage' ? [raw.deciMicrovolts / 10, raw.coldJunction / 1000, quality] : ['', '', quality],
      );
      rows.push([new Date(measuredAt).toISOString(), ...cells.map(String)].join(','));
    }
    const names = channels.flatMap((channel) => [`P${channel} uV`, `P${channel} cold junction`, `P${channel} quality`]);
    return `${['time', ...names].join(',')}\n${rows.join('\n')}\n`;
  });
