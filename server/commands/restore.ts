/** `restore COPY RECORD`: puts a copy in the place of a record, which is laid aside. */
import { limits } from '../measure/limits.ts';
import { RecordRefusal } from '../record/failure.ts';
import { keyFileOf } from '../record/key-file.ts';
import { putBack } from '../record/put-back.ts';
import { readArguments, refuse } from './arguments.ts';
import { type Command, exitStatus } from './command.ts';

const help = `restore COPY RECORD [--reason TEXT]

Puts the copy in the folder COPY in the place of the record in the folder RECORD, or where there is none yet. The copy is
verified first. What stands in RECORD is compared with it: where it holds anything that the copy lacks, nothing is done, and
what would be lost is listed. What stood there is never deleted: it is laid aside under another name. The station must not
be running.

  --reason TEXT  go on although the record holds what the copy lacks, or cannot be read any more. The reason and the
                 heads of what was laid aside come into the record
  --help         this page

Instruments that were set up come along and wait: a port or an address may lead to another device on this machine, so that none
is read until somebody has tried it on the page Instruments and keeps it. Those that RECORD has are read as before.

A restored record says so itself: the first entry that a station then writes is the restoration. Heads that left the house
after the copy was taken are not in it; "verify RECORD --head TEXT" names them as missing.

Exit status: 0 done, 3 not done.

Example: npm run -s ledger -- restore /media/stick/record-2026-11-28 data`;

export const restore: Command = {
  name: 'restore',
  summary: 'a copy put back in the place of a record, which is laid aside',
  help,
  run: async (args, terminal) => {
    const asked = readArguments(restore, { reason: { type: 'string' } } as const, args, terminal);
    if (typeof asked === 'number') return asked;
    const [copy, record, ...rest] = asked.positionals;
    if (copy === undefined || record === undefined || rest.length > 0)
      return refuse(restore, 'name the copy (a folder) and the record (a folder)', terminal);
    const reason = asked.values.reason?.trim();
    if (reason !== undefined && (reason === '' || reason.length > limits.textMaximum))
      return refuse(restore, `--reason wants 1 to ${limits.textMaximum} characters`, terminal);
    try {
      const stamp = new Date().toISOString().replace(/[:.]/g, '');
      const done = putBack({ copy, record, stamp, ...(reason === undefined ? {} : { reason }) });
      terminal.out(`Put back: ${record}, ${done.heads.length} chains.`);
      if (done.aside !== undefined) terminal.out(`What stood there lies in ${done.aside}.`);
      if (done.instruments.length > 0) {
        terminal.out(`Instruments that wait, and are not read: ${done.instruments.join(', ')}.`);
        terminal.out('Try each on the page Instruments, see that it reads what it should, and keep it.');
      }
      terminal.out(`To go on writing on it the station needs its key in ${keyFileOf(record)}.`);
      return exitStatus.done;
    } catch (error) {
      if (!(error instanceof RecordRefusal)) throw error;
      terminal.err(error.message);
      return exitStatus.failed;
    }
  },
};
