/**
 * Makes the file of a record as small as what is in it: what was taken out leaves free pages, which SQLite uses again and never
 * gives back by itself. Every page is written anew, so that no station may be writing, and as much room again is needed meanwhile.
 */
import { statSync } from 'node:fs';
import type { Disk } from './database.ts';
import { isDiskFull, RecordRefusal, wordsOf } from './failure.ts';
import { openFolderToRead, recordFile, takeLock } from './folder.ts';
import { sqliteDisk } from './sqlite.ts';

export interface Shrunk {
  /** Of the file, bytes. */
  readonly before: number;
  readonly after: number;
}

/** Throws RecordRefusal; the record is then as it was. */
export const shrink = (folder: string, disk: Disk = sqliteDisk): Shrunk => {
  openFolderToRead(folder, disk).close();
  const release = takeLock(folder, disk);
  try {
    const before = statSync(recordFile(folder)).size;
    const database = disk.open(recordFile(folder), 'write');
    try {
      database.exec('VACUUM');
      database.exec('PRAGMA wal_checkpoint(TRUNCATE)');
    } finally {
      database.close();
    }
    return { before, after: statSync(recordFile(folder)).size };
  } catch (cause) {
    const advice = isDiskFull(cause)
      ? `The disk has not as much room again as the record takes: make room, then "remove-readings ${folder} --shrink".`
      : `See that nobody else has it open, then "remove-readings ${folder} --shrink".`;
    throw new RecordRefusal('not possible', `The file did not become smaller: ${wordsOf(cause)}. ${advice}`, cause);
  } finally {
    release();
  }
};
