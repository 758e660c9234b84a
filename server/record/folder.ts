/**
 * The folder of a record: opened for writing by one program at a time, and never begun by mistake. The
 * writer holds a lock that the operating system drops when the process ends, however it ends.
 */
import { existsSync, mkdirSync, statSync } from 'node:fs';
import { join } from 'node:path';
import type { Database, Disk } from './database.ts';
import { isBusy, isNotADatabase, RecordRefusal, wordsOf } from './failure.ts';
import { applicationId, recordFormat } from './schema.ts';

export interface OpenedFolder {
  readonly database: Database;
  readonly fresh: boolean;
  readonly release: () => void;
}

export const recordFile = (folder: string): string => join(folder, 'record.sqlite');

export const openFolder = (folder: string, begin: boolean, disk: Disk): OpenedFolder => {
  const file = recordFile(folder);
  const state = inspect(folder, file, disk);
  if (state === 'none' && !begin) throw noRecord(folder);
  if (state === 'none') makeFolder(folder);
  const release = takeLock(folder, disk);
  try {
    // Looked at again under the lock: another program may have begun the record in between.
    const fresh = inspect(folder, file, disk) === 'none';
    return { database: open(folder, file, disk), fresh, release };
  } catch (error) {
    release();
    throw error;
  }
};

/** For readers: their own connection, no lock, beside a writer or without one. */
export const openFolderToRead = (folder: string, disk: Disk): Database => {
  const file = recordFile(folder);
  if (inspect(folder, file, disk) === 'none') throw noRecord(folder);
  try {
    return disk.open(file, 'read');
  } catch (error) {
    throw notPossible(folder, error);
  }
};

const open = (folder: string, file: string, disk: Disk): Database => {
  try {
    return disk.open(file, 'write');
  } catch (error) {
    throw notPossible(folder, error);
  }
};

/** Reads only, so that a foreign file is not touched. */
const inspect = (folder: string, file: string, disk: Disk): 'none' | 'record' => {
  if (!existsSync(file) || statSync(file).size === 0) return 'none';
  let database: Database;
  try {
    database = disk.open(file, 'read');
  } catch (error) {
    throw isNotADatabase(error) ? notARecord(file) : notPossible(folder, error);
  }
  try {
    const id = database.get<{ application_id: number }>('PRAGMA application_id')?.application_id ?? 0;
    const format = database.get<{ user_version: number }>('PRAGMA user_version')?.user_version ?? 0;
    const tables = database.get<{ n: number }>('SELECT count(*) AS n FROM sqlite_schema')?.n ?? 0;
    // A program that was stopped while it began leaves a database without tables.
    if (tables === 0 && id === 0) return 'none';
    if (id !== applicationId) throw notARecord(file);
    if (format > recordFormat) throw newerFormat(folder, format);
    return 'record';
  } catch (error) {
    if (error instanceof RecordRefusal) throw error;
    throw isNotADatabase(error) ? notARecord(file) : notPossible(folder, error);
  } finally {
    database.close();
  }
};

const makeFolder = (folder: string): void => {
  try {
    mkdirSync(folder, { recursive: true });
  } catch (error) {
    throw notPossible(folder, error);
  }
};

/** Keeps every writer out until it is released; that may be done more than once. */
export const takeLock = (folder: string, disk: Disk): (() => void) => {
  let lock: Database | undefined;
  try {
    const held = disk.open(join(folder, 'writer.lock'), 'lock');
    lock = held;
    held.exec('BEGIN EXCLUSIVE');
    return () => held.close();
  } catch (error) {
    lock?.close();
    if (isBusy(error)) {
      throw new RecordRefusal(
        'open elsewhere',
        `The record in ${folder} is open in another program. Close that one first, or give another folder.`,
        error,
      );
    }
    throw notPossible(folder, error);
  }
};

const noRecord = (folder: string): RecordRefusal =>
  new RecordRefusal(
    'no record',
    `There is no record in ${folder}. If the folder is mistyped, correct it; a new record begins only when that is asked for.`,
  );

const notARecord = (file: string): RecordRefusal =>
  new RecordRefusal(
    'not a record',
    `${file} is not a record of this program. Nothing was changed in it; give another folder.`,
  );

const newerFormat = (folder: string, format: number): RecordRefusal =>
  new RecordRefusal(
    'newer format',
    `The record in ${folder} has format ${format}; this program knows formats up to ${recordFormat}. Use a newer version of the program.`,
  );

const notPossible = (folder: string, error: unknown): RecordRefusal =>
  new RecordRefusal(
    'not possible',
    `The record in ${folder} cannot be opened: ${wordsOf(error)}. Check that the folder is on a local disk and that this user may write to it.`,
    error,
  );
