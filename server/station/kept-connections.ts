/** Connections that were set up on the page: one file each, in a folder beside the record and never in it. */
import { mkdirSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import {
  connectionFile,
  connectionFilesIn,
  connectionsFolderOf,
  spokenName,
  waitingFolderOf,
  writeWhole,
} from '../record/instrument-files.ts';
import { type Connection, readConnection } from '../weld/connection/connection.ts';

/** Throws with words for a file that cannot be read: an instrument must not be lost without anybody being told. */
export function keptConnections(folder: string): readonly Connection[] {
  const kept = connectionsFolderOf(folder);
  return connectionFilesIn(kept).map((name) => {
    const path = join(kept, name);
    const result = readConnection(readFileSync(path, 'utf8'));
    if ('connection' in result) return result.connection;
    const [first] = result.problems;
    throw new Error(
      `${path} cannot be read: ${first?.field}: found ${first?.found}, allowed ${first?.allowed}. Put it right, or move it away`,
    );
  });
}

export interface Waiting {
  readonly name: string;
  /** As it stands, right or not: the trial tells. */
  readonly text: string;
  /** Absent where it cannot be read. */
  readonly connection?: Connection;
}

/** Those that a restored record brought along: nothing of them is opened until a person keeps them. */
export function waitingConnections(folder: string): readonly Waiting[] {
  const waiting = waitingFolderOf(folder);
  return connectionFilesIn(waiting).map((file) => {
    const text = readFileSync(join(waiting, file), 'utf8');
    const result = readConnection(text);
    return { name: spokenName(file), text, ...('connection' in result ? { connection: result.connection } : {}) };
  });
}

export function keepConnection(folder: string, connection: Connection): void {
  const kept = connectionsFolderOf(folder);
  mkdirSync(kept, { recursive: true });
  const file = connectionFile(connection.name);
  writeWhole(join(kept, file), `${JSON.stringify(connection, null, 2)}\n`);
  dropWaiting(folder, connection.name);
}

export const dropConnection = (folder: string, name: string): void =>
  rmSync(join(connectionsFolderOf(folder), connectionFile(name)), { force: true });

export const dropWaiting = (folder: string, name: string): void =>
  rmSync(join(waitingFolderOf(folder), connectionFile(name)), { force: true });
