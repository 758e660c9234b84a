/**
 * A copy put back in the place of a record. Checked before, compared with what stands there, and what stood there is laid aside
 * and never deleted. The next program that writes to it begins with an entry that says so, with the heads that the record had
 * gone to: whoever holds one of those later heads is told by `verify --head` that entries are missing, and the entry why.
 */
import { copyFileSync, existsSync, mkdirSync, rmSync } from 'node:fs';
import { resolve } from 'node:path';
import { type ChainHeadText, headText } from '../ledger/head-text.ts';
import type { Database, Disk } from './database.ts';
import { isDamaged, RecordRefusal, wordsOf } from './failure.ts';
import { openFolderToRead, recordFile, takeLock } from './folder.ts';
import { hashAt } from './head.ts';
import { inspectRecord } from './inspection.ts';
import { layWaiting } from './instrument-files.ts';
import { headsIn } from './keep-copy.ts';
import { renameInto } from './put-in-place.ts';
import { meta, setMeta } from './schema.ts';
import { sqliteDisk } from './sqlite.ts';

/** Body of the entry `restored`, and what waits in the copy until a writer with a key makes that entry. */
export interface Restored {
  /** Of each chain of the copy: where it stood. */
  readonly heads: readonly ChainHeadText[];
  /** Of each chain of the record that was laid aside, where it went further or elsewhere than the copy. */
  readonly laidAside: readonly ChainHeadText[];
  /** Why the copy was taken all the same; left out where it lacks nothing. */
  readonly reason?: string;
}
export interface PutBack extends Restored {
  /** Where the record that stood there lies now; undefined where there was none. */
  readonly aside?: string;
  /** Instruments of the copy that are not read until somebody keeps them. */
  readonly instruments: readonly string[];
}
export interface PutBackOptions {
  readonly copy: string;
  readonly record: string;
  /** Part of the name of what is laid aside. */
  readonly stamp: string;
  /** Goes on although the record holds what the copy lacks, or cannot be read. */
  readonly reason?: string;
  readonly disk?: Disk;
}

/** Throws RecordRefusal with words that say what to do; nothing has been moved then. */
export const putBack = ({ copy, record, stamp, reason, disk = sqliteDisk }: PutBackOptions): PutBack => {
  const [from, to] = [resolve(copy), resolve(record)];
  if (from === to) throw new RecordRefusal('not possible', 'The copy and the record are the same folder.');
  const seen = inspectRecord(from, { disk });
  if (!seen.ok)
    throw new RecordRefusal(
      'not possible',
      `The copy in ${from} is not intact and was not put back. See: verify ${from}. Take an older copy.`,
    );
  const made = `${to}.unfinished`;
  const begun = existsSync(to) ? undefined : toldIn(made, from, disk);
  if (begun !== undefined) {
    const instruments = layWaiting(from, to);
    renameInto(made, to);
    return { ...begun, instruments };
  }
  const isThere = existsSync(recordFile(to));
  const release = isThere ? takeLock(to, disk) : () => undefined;
  try {
    const told = compare(from, isThere ? to : undefined, reason, disk);
    rmSync(made, { recursive: true, force: true });
    mkdirSync(made);
    prepare(from, made, told, disk);
    const aside = existsSync(to) ? `${to}.aside-${stamp}` : undefined;
    if (aside !== undefined && existsSync(aside))
      throw new RecordRefusal('not possible', `${aside} is there already; wait a second and try again.`);
    // There a folder with an open file keeps its name.
    if (process.platform === 'win32') release();
    if (aside !== undefined) renameInto(to, aside);
    const instruments = layWaiting(from, to);
    renameInto(made, to);
    return { ...told, instruments, ...(aside === undefined ? {} : { aside }) };
  } catch (cause) {
    throw cause instanceof RecordRefusal ? cause : failed(to, cause);
  } finally {
    release();
  }
};

/** What an attempt wrote that ended after the record was laid aside and before the copy had its name: only that is left to do. */
const toldIn = (made: string, from: string, disk: Disk): Restored | undefined => {
  if (!existsSync(recordFile(made)) || !inspectRecord(made, { disk }).ok) return undefined;
  const [ready, copy] = [openFolderToRead(made, disk), openFolderToRead(from, disk)];
  try {
    const told = meta(ready, 'restored');
    const isSame = JSON.stringify(headsIn(ready)) === JSON.stringify(headsIn(copy));
    return isSame && typeof told === 'string' ? (JSON.parse(told) as Restored) : undefined;
  } finally {
    ready.close();
    copy.close();
  }
};

const failed = (to: string, cause: unknown): RecordRefusal =>
  new RecordRefusal(
    'not possible',
    `The copy was not put back in ${to}: ${wordsOf(cause)}. Nothing was deleted; see that there is room and that this user may write there, then give the same command again.`,
    cause,
  );

const compare = (from: string, to: string | undefined, reason: string | undefined, disk: Disk): Restored => {
  const copy = openFolderToRead(from, disk);
  try {
    const heads = headsIn(copy);
    const laidAside = to === undefined ? [] : further(to, copy, reason, disk);
    if (laidAside.length > 0 && reason === undefined) throw lacking(laidAside, copy);
    return { heads, laidAside, ...(reason === undefined ? {} : { reason }) };
  } finally {
    copy.close();
  }
};

/** Heads of the record that the copy does not hold. */
const further = (to: string, copy: Database, reason: string | undefined, disk: Disk): readonly ChainHeadText[] => {
  try {
    const record = openFolderToRead(to, disk);
    try {
      const waiting = record.all<{ chain: string }>('SELECT chain FROM chains WHERE journalled > 0');
      const unsealed = new Set(waiting.map(({ chain }) => chain));
      return headsIn(record).filter(
        ({ chain, seq, hash }) =>
          hashAt(copy, chain, seq) !== hash || (unsealed.has(chain) && newestOf(copy, chain) < newestOf(record, chain)),
      );
    } finally {
      record.close();
    }
  } catch (cause) {
    const told = cause instanceof RecordRefusal ? cause.cause : cause;
    if (reason !== undefined && isDamaged(told)) return [];
    throw new RecordRefusal(
      'not possible',
      `What the record in ${to} holds cannot be read (${wordsOf(told ?? cause)}), so that nobody can say what the copy lacks. To go on all the same give --reason TEXT; the folder is laid aside, not deleted.`,
      cause,
    );
  }
};

const newestOf = (database: Database, chain: string): number =>
  database.get<{ position: number }>('SELECT position FROM chains WHERE chain = ?', chain)?.position ?? 0;

const lacking = (heads: readonly ChainHeadText[], copy: Database): RecordRefusal => {
  const known = new Map(headsIn(copy).map(({ chain, seq }) => [chain, seq]));
  const lines = heads.map(({ chain, seq, hash }) => {
    const has = known.get(chain) ?? 0;
    const lost =
      has === 0 ? 'all of it' : has < seq ? `entries ${has + 1} to ${seq}` : 'readings or entries that differ';
    return `  ${chain}: ${lost} (head ${headText({ chain, seq, hash })})`;
  });
  return new RecordRefusal(
    'not possible',
    [
      'Nothing was put back: the record holds what the copy lacks.',
      ...lines,
      'Take a newer copy. To go on all the same give --reason TEXT: the reason and these heads come into the record, and the folder is laid aside, not deleted.',
    ].join('\n'),
  );
};

/** The copy stays as it is; what is put in its place carries the note that becomes an entry. */
const prepare = (from: string, made: string, told: Restored, disk: Disk): void => {
  copyFileSync(recordFile(from), recordFile(made));
  for (const end of ['-wal', '-shm'])
    if (existsSync(recordFile(from) + end)) copyFileSync(recordFile(from) + end, recordFile(made) + end);
  const database = disk.open(recordFile(made), 'write');
  try {
    setMeta(database, 'restored', JSON.stringify(told));
  } finally {
    database.close();
  }
};
