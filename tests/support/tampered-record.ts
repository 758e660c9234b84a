/** A record on disk, and the hand that changes it. */
import { join } from 'node:path';
import type { Database } from '../../server/record/database.ts';
import { sqliteDisk } from '../../server/record/sqlite.ts';
import { bench, scanItem, shortJob } from './record.ts';

/** A closed record of two joints, with a document. Its first joint has eight entries: see shortJob. */
export const closedRecord = (leaveUnsealed = false): string => {
  const bed = bench();
  bed.store.putDocument(new Uint8Array([1, 2, 3]), 'image/png');
  bed.store.commit(shortJob());
  bed.store.commit(shortJob('joint-2'));
  if (leaveUnsealed) {
    bed.store.close();
    bed.reopen();
    bed.store.commit([scanItem(20), scanItem(21)]);
    return bed.folder;
  }
  bed.store.close();
  return bed.folder;
};

/** As someone would who can write to the file and knows SQL. */
export const tamper = (folder: string, work: (raw: Database) => void): void => {
  const raw = sqliteDisk.open(join(folder, 'record.sqlite'), 'write');
  for (const table of ['entries', 'blocks', 'documents'])
    raw.exec(`DROP TRIGGER ${table}_stay; DROP TRIGGER ${table}_last`);
  work(raw);
  raw.close();
};
