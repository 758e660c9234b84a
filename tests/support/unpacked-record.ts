/** All bytes that a record holds, as they lie on the disk and, since entries lie packed there, opened as well: for looking for what must not be in it. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { sqliteDisk } from '../../server/record/sqlite.ts';
import { entryByHand } from './by-hand.ts';

export function bytesOfRecord(folder: string): Buffer[] {
  const database = sqliteDisk.open(join(folder, 'record.sqlite'), 'read');
  try {
    const rows = database.all<{ readonly bytes: Uint8Array }>('SELECT bytes FROM entries');
    return [
      ...readdirSync(folder).map((name) => readFileSync(join(folder, name))),
      ...rows.map(({ bytes }) => entryByHand(bytes)),
    ];
  } finally {
    database.close();
  }
}
