/**
 * Tables of the record; FORMAT.md says what each column holds. What is derived (heads, positions, open)
 * is kept for speed and is checked against the chains by `verify`.
 */
import { putBackKind, removedKind } from '../ledger/removal-entry.ts';
import type { Database } from './database.ts';

/** Stands in the file's user_version; a greater one is refused. */
export const recordFormat = 1;
/** Stands in the file's application_id: "PLgr" in ASCII. */
export const applicationId = 0x504c6772;

export const createTables = (database: Database): void => {
  database.exec(tables);
  database.exec(signatureTable);
  database.exec(`PRAGMA application_id=${applicationId}; PRAGMA user_version=${recordFormat}`);
};

/** A record of before has none; it gets one when it is first opened for writing with a key. */
export const addSignatureTable = (database: Database): void => database.exec(signatureTable);

export const hasSignatureTable = (database: Database): boolean =>
  database.get("SELECT 1 FROM sqlite_schema WHERE type = 'table' AND name = 'signatures'") !== undefined;

const signatureTable = `
CREATE TABLE IF NOT EXISTS signatures (
  chain TEXT NOT NULL,
  seq INTEGER NOT NULL,
  key INTEGER NOT NULL CHECK (key > 0),
  signature BLOB NOT NULL,
  PRIMARY KEY (chain, seq)
) STRICT, WITHOUT ROWID;
CREATE TRIGGER IF NOT EXISTS signatures_stay BEFORE UPDATE ON signatures
BEGIN SELECT RAISE(ABORT, 'a signature is never changed'); END;
CREATE TRIGGER IF NOT EXISTS signatures_last BEFORE DELETE ON signatures
BEGIN SELECT RAISE(ABORT, 'a signature is never deleted'); END;
`;

const tables = `
CREATE TABLE meta (name TEXT PRIMARY KEY, value ANY NOT NULL) STRICT, WITHOUT ROWID;

CREATE TABLE chains (
  chain TEXT PRIMARY KEY,
  seq INTEGER NOT NULL,
  hash TEXT NOT NULL,
  position INTEGER NOT NULL,
  at INTEGER NOT NULL,
  open INTEGER NOT NULL CHECK (open IN (0, 1)),
  noted INTEGER NOT NULL,
  journalled INTEGER NOT NULL,
  journalled_bytes INTEGER NOT NULL
) STRICT, WITHOUT ROWID;

CREATE TABLE entries (
  chain TEXT NOT NULL,
  seq INTEGER NOT NULL CHECK (seq > 0),
  position INTEGER NOT NULL,
  class TEXT NOT NULL CHECK (class IN ('input', 'conclusion', 'block')),
  kind TEXT NOT NULL,
  hash TEXT NOT NULL CHECK (length(hash) = 64),
  bytes BLOB NOT NULL,
  UNIQUE (chain, seq)
) STRICT;
CREATE INDEX entries_by_position ON entries (chain, position, seq);

CREATE TABLE blocks (
  chain TEXT NOT NULL,
  seq INTEGER NOT NULL,
  measured_from INTEGER NOT NULL,
  measured_to INTEGER NOT NULL,
  positions BLOB NOT NULL,
  packed BLOB NOT NULL,
  UNIQUE (chain, seq)
) STRICT;
CREATE INDEX blocks_by_time ON blocks (chain, measured_to);

CREATE TABLE journal (
  position INTEGER PRIMARY KEY,
  chain TEXT NOT NULL,
  measured_at INTEGER NOT NULL,
  arrived_at INTEGER NOT NULL,
  scan BLOB NOT NULL
) STRICT;
CREATE INDEX journal_by_chain ON journal (chain, position);

CREATE TABLE documents (
  sha256 TEXT PRIMARY KEY CHECK (length(sha256) = 64),
  media_type TEXT NOT NULL,
  kept_at INTEGER NOT NULL,
  bytes BLOB NOT NULL
) STRICT;

CREATE TRIGGER entries_stay BEFORE UPDATE ON entries BEGIN SELECT RAISE(ABORT, 'an entry is never changed'); END;
CREATE TRIGGER entries_last BEFORE DELETE ON entries BEGIN SELECT RAISE(ABORT, 'an entry is never deleted'); END;
CREATE TRIGGER blocks_stay BEFORE UPDATE ON blocks BEGIN SELECT RAISE(ABORT, 'a block is never changed'); END;
CREATE TRIGGER blocks_last BEFORE DELETE ON blocks BEGIN SELECT RAISE(ABORT, 'a block is never deleted'); END;
CREATE TRIGGER documents_stay BEFORE UPDATE ON documents BEGIN SELECT RAISE(ABORT, 'a document is never changed'); END;
CREATE TRIGGER documents_last BEFORE DELETE ON documents BEGIN SELECT RAISE(ABORT, 'a document is never deleted'); END;
`;

/**
 * Lets the readings of a block go out of the record, or come back, right after the entry that says so and in no other way. A
 * record of before, in which nothing was ever removed, has the trigger that lets nothing through.
 */
export const allowRemoval = (database: Database): void =>
  database.exec(`
DROP TRIGGER IF EXISTS blocks_stay;
CREATE TRIGGER blocks_stay BEFORE UPDATE ON blocks
WHEN NOT (
  NEW.chain IS OLD.chain AND NEW.seq IS OLD.seq AND NEW.positions IS OLD.positions
  AND NEW.measured_from IS OLD.measured_from AND NEW.measured_to IS OLD.measured_to
  AND (length(NEW.packed) = 0) <> (length(OLD.packed) = 0)
  AND (SELECT class || ' ' || kind FROM entries WHERE chain = OLD.chain ORDER BY seq DESC LIMIT 1)
    IS CASE length(NEW.packed) WHEN 0 THEN 'block ${removedKind}' ELSE 'block ${putBackKind}' END
)
BEGIN SELECT RAISE(ABORT, 'a block is never changed'); END;
`);

/** The number or text kept under a name. */
export const meta = (database: Database, name: string): number | string | undefined =>
  database.get<{ value: number | string }>('SELECT value FROM meta WHERE name = ?', name)?.value;

export const setMeta = (database: Database, name: string, value: number | string): void =>
  database.run(
    'INSERT INTO meta (name, value) VALUES (?, ?) ON CONFLICT (name) DO UPDATE SET value = excluded.value',
    name,
    value,
  );

export const forgetMeta = (database: Database, name: string): void =>
  database.run('DELETE FROM meta WHERE name = ?', name);
