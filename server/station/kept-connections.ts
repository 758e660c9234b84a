/** Connections that were set up on the page: one file each, in a folder beside the record and never in it. */
import { mkdirSync, readdirSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { type Connection, readConnection } from '../weld/connection/connection.ts';

export const connectionsFolderOf = (folder: string): string => `${folder.replace(/[\\/]+$/, '')}.connections`;

/** Throws with words for a file that cannot be read: an instrument must not be lost without anybody being told. */
export function keptConnections(folder: string): readonly Connection[] {
  return filesIn(folder).map((path) => {
    const result = readConnection(readFileSync(path, 'utf8'));
    if ('connection' in result) return result.connection;
    const [first] = result.problems;
    throw new Error(
      `${path} cannot be read: ${first?.field}: found ${first?.found}, allowed ${first?.allowed}. Put it right, or move it away`,
    );
  });
}

export function keepConnection(folder: string, connection: Connection): void {
  const kept = connectionsFolderOf(folder);
  mkdirSync(kept, { recursive: true });
  const path = pathOf(folder, connection.name);
  writeFileSync(`${path}.part`, `${JSON.stringify(connection, null, 2)}\n`);
  renameSync(`${path}.part`, path);
}

export const dropConnection = (folder: string, name: string): void => rmSync(pathOf(folder, name), { force: true });

const pathOf = (folder: string, name: string): string =>
  join(connectionsFolderOf(folder), `${encodeURIComponent(name).replaceAll('*', '%2A').replaceAll('.', '%2E')}.json`);

function filesIn(folder: string): string[] {
  const kept = connectionsFolderOf(folder);
  try {
    return readdirSync(kept)
      .filter((name) => name.endsWith('.json'))
      .toSorted()
      .map((name) => join(kept, name));
  } catch (cause) {
    if ((cause as NodeJS.ErrnoException).code === 'ENOENT') return [];
    throw cause;
  }
}
