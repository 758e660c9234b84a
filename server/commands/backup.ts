/** `backup RECORD TO`: a verified copy of a record, while a station may be writing to it. */
import { RecordRefusal } from '../record/failure.ts';
import { keepCopy } from '../record/keep-copy.ts';
import { awayCountText } from '../wording/removal.ts';
import { readArguments, refuse } from './arguments.ts';
import { type Command, exitStatus } from './command.ts';

const help = `backup RECORD TO

Copies the record in the folder RECORD to the new folder TO, as it stands at one moment; a station may go on writing to it
meanwhile. The copy is verified before it gets its name: chains, signatures, readings, documents, and that it holds what
the record held. TO must not be there yet: a copy is never laid over another.

Files of instruments that were set up on the page (RECORD.connections) go along.

The station's private key (RECORD.key.pem) and the file of the people (RECORD.people.sqlite) are not in it. Keep a copy of
each apart, where only you reach it: whoever has the key and a copy can write a record that looks like yours.

  --help   this page

Exit status: 0 done, 3 not done.

Example: npm run -s ledger -- backup data /media/stick/record-2026-11-28`;

export const backup: Command = {
  name: 'backup',
  summary: 'a verified copy of a record, while the station runs',
  help,
  run: async (args, terminal) => {
    const asked = readArguments(backup, {}, args, terminal);
    if (typeof asked === 'number') return asked;
    const [from, to, ...rest] = asked.positionals;
    if (from === undefined || to === undefined || rest.length > 0)
      return refuse(backup, 'name the record (a folder) and the new folder for the copy', terminal);
    try {
      const kept = keepCopy({ from, to, at: new Date().toISOString() });
      terminal.out(`Copied and verified: ${kept.folder}`);
      terminal.out(`${kept.heads.length} chains, ${kept.entries} entries, ${(kept.bytes / 1e6).toFixed(1)} MB.`);
      if (kept.instruments.length > 0) terminal.out(`Instruments that go along: ${kept.instruments.join(', ')}.`);
      if (kept.away > 0) terminal.out(`As in the record, ${awayCountText(kept.away)}; copy those too.`);
      terminal.out("The station's key and the file of the people are not in it; keep copies of them apart.");
      return exitStatus.done;
    } catch (error) {
      if (!(error instanceof RecordRefusal)) throw error;
      terminal.err(error.message);
      return exitStatus.failed;
    }
  },
};
