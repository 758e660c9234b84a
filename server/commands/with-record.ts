/** Opens a record to read for one command, and tells in words what went wrong. */
import { RecordRefusal } from '../record/failure.ts';
import { openRecordReadOnly, type RecordReader } from '../record/read.ts';
import { type Command, exitStatus, type Terminal } from './command.ts';

export async function withRecord(
  command: Pick<Command, 'name'>,
  folder: string,
  terminal: Terminal,
  work: (reader: RecordReader) => number | Promise<number>,
): Promise<number> {
  try {
    const reader = openRecordReadOnly(folder);
    try {
      return await work(reader);
    } finally {
      reader.close();
    }
  } catch (error) {
    const words = error instanceof Error ? error.message : String(error);
    terminal.err(error instanceof RecordRefusal ? words : `${command.name}: ${words}`);
    return exitStatus.failed;
  }
}
