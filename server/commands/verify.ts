/**
 * `verify RECORD`: is the record as it was written, is it complete in time, and does its own evidence still
 * give the verdict that stands in it? Believes nothing of the record, and may run beside a station.
 */
import { judgeAll } from '../judgement/judge.ts';
import { RecordRefusal } from '../record/failure.ts';
import { type InspectionOptions, inspectRecord, type RecordInspection, type Rejudge } from '../record/inspection.ts';
import { readArguments, refuse } from './arguments.ts';
import { type Command, exitStatus, type Terminal } from './command.ts';
import { verifyAnswer, verifyText } from './verify-text.ts';

const help = `verify RECORD [--head CHAIN=SEQ:HASH]... [--json]

Checks a record (the folder given to serve as --data): every entry of every chain against its hash and the one
before it, the sealed scans, the documents, and the heads that the station noted; then gaps in time, and whether
the inputs judged anew give the verdict that was recorded. The first entry that is not as it was written is named.
It reads only, and may run beside a station that writes.

  --head CHAIN=SEQ:HASH   a head known from elsewhere, as printed on a report: the chain of that joint must hold
                          an entry SEQ with that hash. May be given several times.
  --json                  the answer as JSON
  --help                  this page

Exit status: 0 as it was written, 1 altered or the verdict differs, 3 bad input or no record there.
A sound record says that nothing was changed after it was written. Whoever rewrites all chains at once can be found
out only by a head kept elsewhere: give it with --head. It never says that a weld is sound or safe.

Example: npm run -s ledger -- verify data`;

/** The command with the judge that it compares with; handed in, so that a test can hand in another. */
export const verifyWith = (rejudge: Rejudge): Command => {
  const command: Command = {
    name: 'verify',
    summary: 'a record checked: altered, complete, and judged anew',
    help,
    run: async (args, terminal) => {
      const asked = readArguments(
        command,
        { json: { type: 'boolean' }, head: { type: 'string', multiple: true } },
        args,
        terminal,
      );
      if (typeof asked === 'number') return asked;
      const [folder, ...rest] = asked.positionals;
      if (folder === undefined || rest.length > 0) return refuse(command, 'name one record (a folder)', terminal);
      const knownHeads = (asked.values.head ?? []).map(headOf);
      if (knownHeads.includes(undefined)) {
        return refuse(command, '--head wants CHAIN=SEQ:HASH, the hash with 64 hexadecimal digits', terminal);
      }
      const heads = knownHeads.filter((head) => head !== undefined);
      const seen = inspect(folder, { knownHeads: heads, rejudge }, terminal);
      if (seen === undefined) return exitStatus.failed;
      terminal.out(asked.values.json === true ? JSON.stringify(verifyAnswer(seen), null, 2) : verifyText(folder, seen));
      return seen.ok && !seen.verdictDiffers ? exitStatus.done : exitStatus.doesNotComply;
    },
  };
  return command;
};

export const verify: Command = verifyWith((inputs) => judgeAll(inputs).assessment);

const inspect = (folder: string, options: InspectionOptions, terminal: Terminal): RecordInspection | undefined => {
  try {
    return inspectRecord(folder, options);
  } catch (error) {
    if (!(error instanceof RecordRefusal)) throw error;
    terminal.err(error.message);
    return undefined;
  }
};

const headOf = (text: string): { chain: string; seq: number; hash: string } | undefined => {
  const [, chain, seq, hash] = /^(.+)=([1-9]\d{0,14}):([0-9a-fA-F]{64})$/.exec(text) ?? [];
  if (chain === undefined || seq === undefined || hash === undefined) return undefined;
  return { chain, seq: Number(seq), hash: hash.toLowerCase() };
};
