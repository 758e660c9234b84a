/**
 * The file of the people: an SQLite database beside the folder of the record and never in it, since that folder is
 * copied and handed on. Only the station's own user may read it. Nothing of it goes into a record but names, roles,
 * ids and how a name was established.
 */
import { chmodSync, closeSync, existsSync, openSync } from 'node:fs';
import { resolve } from 'node:path';
import { type Database, type Disk, transact } from '../record/database.ts';

/** Stands in the file's application_id: "PLpp" in ASCII. */
const applicationId = 0x504c7070;
const fileFormat = 1;

export const peopleFileOf = (folderOfRecord: string): string => `${resolve(folderOfRecord)}.people.sqlite`;

/** Undefined where there is no such file; throws, with words, where there is one that cannot be used. */
export function openPeopleFile(file: string, disk: Disk): Database | undefined {
  return existsSync(file) ? open(file, disk) : undefined;
}

/** Opens it, and begins it where there is none. */
export function beginPeopleFile(file: string, disk: Disk): Database {
  if (!existsSync(file)) closeSync(openSync(file, 'wx', 0o600));
  return open(file, disk);
}

function open(file: string, disk: Disk): Database {
  // Before SQLite makes its log beside it: that one takes the rights of the file.
  chmodSync(file, 0o600);
  const database = disk.open(file, 'write');
  try {
    const id = database.get<{ application_id: number }>('PRAGMA application_id')?.application_id;
    const format = database.get<{ user_version: number }>('PRAGMA user_version')?.user_version ?? 0;
    const tables = database.get<{ n: number }>('SELECT count(*) AS n FROM sqlite_schema')?.n ?? 0;
    if (id === 0 && tables === 0) transact(database, () => create(database));
    else if (id !== applicationId) throw new Error(`${file} is no file of people; move it away`);
    else if (format > fileFormat) throw new Error(`${file} was made by a newer version of the program; use that one`);
    return database;
  } catch (cause) {
    database.close();
    throw cause;
  }
}

const create = (database: Database): void => {
  database.exec(tables);
  database.exec(`PRAGMA application_id=${applicationId}; PRAGMA user_version=${fileFormat}`);
};

const tables = `
CREATE TABLE people (
  id TEXT PRIMARY KEY,
  name TEXT NOT NULL,
  roles TEXT NOT NULL,
  active INTEGER NOT NULL CHECK (active IN (0, 1))
) STRICT, WITHOUT ROWID;

CREATE TABLE secrets (
  person TEXT NOT NULL,
  kind TEXT NOT NULL CHECK (kind IN ('password', 'PIN', 'badge')),
  hash TEXT NOT NULL,
  set_at INTEGER NOT NULL,
  failures INTEGER NOT NULL,
  paused_until INTEGER NOT NULL,
  PRIMARY KEY (person, kind)
) STRICT, WITHOUT ROWID;

CREATE TABLE screens (
  id TEXT PRIMARY KEY,
  name TEXT NOT NULL,
  hash TEXT NOT NULL UNIQUE,
  trusted_at INTEGER NOT NULL,
  trusted_by TEXT NOT NULL
) STRICT, WITHOUT ROWID;

CREATE TABLE qualifications (
  id TEXT PRIMARY KEY,
  person TEXT NOT NULL,
  body TEXT NOT NULL
) STRICT, WITHOUT ROWID;

CREATE TABLE events (
  number INTEGER PRIMARY KEY,
  at INTEGER NOT NULL,
  who TEXT NOT NULL,
  what TEXT NOT NULL
) STRICT;
CREATE TRIGGER events_stay BEFORE UPDATE ON events BEGIN SELECT RAISE(ABORT, 'what was done stays'); END;
CREATE TRIGGER events_last BEFORE DELETE ON events BEGIN SELECT RAISE(ABORT, 'what was done stays'); END;
`;
