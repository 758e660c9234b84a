/** `head RECORD JOINT`: the newest head as a small file, to be kept where whoever keeps the record cannot change it. */
import { existsSync, writeFileSync } from 'node:fs';
import { headFileName, headFileText, signedHeadText } from '../ledger/head-text.ts';
import { RecordRefusal } from '../record/failure.ts';
import { openRecordReadOnly } from '../record/read.ts';
import { readArguments, refuse } from './arguments.ts';
import { type Command, exitStatus } from './command.ts';

const help = `head RECORD JOINT [--out FILE] [--force]

Writes the newest head of the joint JOINT of the record in the folder RECORD as a small text file, to be sent to whoever shall be
able to tell later that the record was not rewritten: by mail, on a stick, to another computer. "verify RECORD --head FILE"
takes it. JOINT may be "station", whose head stands for all joints. May run beside a station.

  --out FILE    where to (JOINT-ENTRY.head.txt)
  --force       write over a file that is there
  --help        this page

Exit status: 0 written, 3 bad input, no record there, or it cannot be written.

Example: npm run -s ledger -- head data node-7`;

export const head: Command = {
  name: 'head',
  summary: 'the head of a joint as a file that leaves the house',
  help,
  run: async (args, terminal) => {
    const asked = readArguments(head, { out: { type: 'string' }, force: { type: 'boolean' } }, args, terminal);
    if (typeof asked === 'number') return asked;
    const [folder, chain, ...rest] = asked.positionals;
    if (folder === undefined || chain === undefined || rest.length > 0)
      return refuse(head, 'name one record (a folder) and one joint', terminal);
    try {
      const reader = openRecordReadOnly(folder);
      const newest = reader.signedHead(chain);
      const names = reader.chains().map((each) => each.chain);
      reader.close();
      if (newest.seq === 0)
        return refuse(head, `no joint "${chain}" in ${folder}; there are: ${names.join(', ')}`, terminal);
      const out = asked.values.out ?? headFileName(newest);
      if (existsSync(out) && asked.values.force !== true)
        return refuse(head, `${out} is there already; name another with --out, or add --force`, terminal);
      writeFileSync(out, headFileText(newest));
      terminal.out(signedHeadText(newest));
      terminal.out(`written: ${out}. Keep it away from the record.`);
      return exitStatus.done;
    } catch (error) {
      terminal.err(
        error instanceof RecordRefusal ? error.message : `It cannot be written: ${(error as Error).message}`,
      );
      return exitStatus.failed;
    }
  },
};
