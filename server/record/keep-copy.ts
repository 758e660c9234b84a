/**
 * A copy of a record, taken beside a running station: one state of all chains, checked before it gets its name. It is never laid
 * over anything. What is half-made carries another name and is taken away again, or stays behind as what it is.
 */
import { closeSync, existsSync, fsyncSync, mkdirSync, openSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { basename, dirname, join, resolve } from 'node:path';
import { type ChainHeadText, headText } from '../ledger/head-text.ts';
import { isRemoved } from '../ledger/removal-entry.ts';
import type { Database, Disk } from './database.ts';
import { isDiskFull, RecordRefusal, wordsOf } from './failure.ts';
import { openFolderToRead, recordFile } from './folder.ts';
import { hashAt } from './head.ts';
import { inspectRecord } from './inspection.ts';
import { carryConnections } from './instrument-files.ts';
import { renameInto } from './put-in-place.ts';
import { sqliteDisk } from './sqlite.ts';

export interface Kept {
  readonly folder: string;
  readonly entries: number;
  readonly bytes: number;
  readonly heads: readonly ChainHeadText[];
  /** Joints whose readings are in packages, and so not in the copy. */
  readonly away: number;
  /** Names of the connected instruments whose files are in it. */
  readonly instruments: readonly string[];
}
export interface CopyOptions {
  /** The record. */
  readonly from: string;
  /** The folder that the copy becomes; must not be there. */
  readonly to: string;
  /** When, in words, for the note that lies in the copy. */
  readonly at: string;
  readonly disk?: Disk;
}

/** Throws RecordRefusal with words that say what to do. */
export const keepCopy = ({ from, to, at, disk = sqliteDisk }: CopyOptions): Kept => {
  const target = resolve(to);
  refuseTarget(target, resolve(from));
  const made = `${target}.unfinished`;
  const source = openFolderToRead(from, disk);
  try {
    const before = headsIn(source);
    begin(made);
    // The record itself is opened for reading only; this lets the connection write the copy.
    source.exec('PRAGMA query_only=OFF');
    source.exec(`VACUUM INTO '${join(made, 'record.sqlite').replaceAll("'", "''")}'`);
    flush(recordFile(made));
    const { heads, away } = checked(made, source, before, disk);
    const instruments = carryConnections(from, made);
    writeFileSync(join(made, 'COPY.txt'), noteOf(from, at, heads, instruments), { flush: true });
    renameInto(made, target);
    const entries = heads.reduce((sum, { seq }) => sum + seq, 0);
    return { folder: target, entries, bytes: statSync(recordFile(target)).size, heads, away, instruments };
  } catch (cause) {
    leave(made);
    throw cause instanceof RecordRefusal ? cause : failed(target, cause);
  } finally {
    source.close();
  }
};

/** Heads of all chains as they stand. */
export const headsIn = (database: Database): readonly ChainHeadText[] =>
  database.all<ChainHeadText>('SELECT chain, seq, hash FROM chains WHERE seq > 0 ORDER BY chain');

/** Whole in itself, and no other than the record that it was taken from. */
const checked = (
  made: string,
  source: Database,
  before: readonly ChainHeadText[],
  disk: Disk,
): Pick<Kept, 'heads' | 'away'> => {
  const seen = inspectRecord(made, { disk });
  const reader = openFolderToRead(made, disk);
  try {
    const heads = headsIn(reader);
    const isSame =
      heads.every(({ chain, seq, hash }) => hashAt(source, chain, seq) === hash) &&
      before.every(({ chain, seq, hash }) => hashAt(reader, chain, seq) === hash);
    if (seen.ok && isSame)
      return { heads, away: seen.chains.filter(({ removals }) => isRemoved(removals.at(-1))).length };
  } finally {
    reader.close();
  }
  const why = seen.firstBad === undefined ? seen.damaged : `entry ${seen.firstBad.seq} of ${seen.firstBad.chain}`;
  throw new RecordRefusal(
    'not possible',
    `The copy was taken and is not intact${why === undefined ? '' : ` (${why})`}; it was not kept. Check the record itself with verify, and the disk that the copy goes to.`,
  );
};

const refuseTarget = (target: string, from: string): void => {
  if (existsSync(target))
    throw new RecordRefusal(
      'not possible',
      `${target} is there already, and a copy is never laid over anything. Give another name.`,
    );
  if (!existsSync(dirname(target)))
    throw new RecordRefusal(
      'not possible',
      `${dirname(target)} is not there. If it is a stick or a network place, plug it in or connect it; else make the folder.`,
    );
  if (dirname(target) === from || target.startsWith(`${from}/`))
    throw new RecordRefusal('not possible', 'The copy cannot lie in the record itself. Give a place on another disk.');
};

/** What an attempt of before left half-made may go: it never had the name of a copy. */
const begin = (made: string): void => {
  leave(made);
  mkdirSync(made);
};

const leave = (made: string): void => {
  try {
    rmSync(made, { recursive: true, force: true });
  } catch {
    // A disk that is gone takes nothing away either; the name says that it is unfinished.
  }
};

const flush = (file: string): void => {
  const handle = openSync(file, 'r+');
  try {
    fsyncSync(handle);
  } finally {
    closeSync(handle);
  }
};

const failed = (target: string, cause: unknown): RecordRefusal => {
  const code = (cause as NodeJS.ErrnoException).code ?? '';
  const advice =
    isDiskFull(cause) || code === 'ENOSPC'
      ? 'The disk that the copy goes to is full: make room on it, or give another one.'
      : code === 'EACCES' || code === 'EPERM' || code === 'EROFS'
        ? 'This user may not write there.'
        : 'Is the disk or stick that it goes to still plugged in?';
  return new RecordRefusal('not possible', `No copy was made in ${target}: ${wordsOf(cause)}. ${advice}`, cause);
};

const noteOf = (from: string, at: string, heads: readonly ChainHeadText[], instruments: readonly string[]): string =>
  [
    `A copy of the record ${basename(resolve(from))}, taken ${at} and verified as intact.`,
    '',
    "The station's private key is not in it: whoever has both can rewrite the record. Keep the key apart. Without it the copy",
    'can be read, verified and put back; a station that goes on writing on it needs the key, or a new one (command key).',
    '',
    ...(instruments.length === 0
      ? []
      : [
          `Instruments that were set up (folder connections): ${instruments.join(', ')}. Put back they wait: none is read until`,
          'somebody has tried it on the page Instruments and keeps it, since a port or an address may lead to another device.',
          '',
        ]),
    'Heads of the chains when it was taken, one a line:',
    ...heads.map(headText),
    '',
  ].join('\n');
