/** `stamp RECORD`: a head stamped by an authority outside, and its answer kept in the record. Nothing is sent unless an address is given. */
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { headText } from '../ledger/head-text.ts';
import { instant } from '../measure/quantity.ts';
import { readProgram } from '../program.ts';
import { RecordRefusal } from '../record/failure.ts';
import { signerBeside } from '../record/key-file.ts';
import { openRecordReadOnly, type RecordReader } from '../record/read.ts';
import { type Checked, checkedStamp, requestFor } from '../record/stamping.ts';
import { openRecord } from '../record/store.ts';
import { stampText, trustText } from '../wording/stamp.ts';
import { readArguments, refuse } from './arguments.ts';
import { type Command, exitStatus, type Terminal } from './command.ts';
import { sendRequest } from './send-request.ts';

const help = `stamp RECORD CHAIN [--out FILE] | --send ADDRESS
stamp RECORD --answer FILE --request FILE

Has the newest head of a joint's record stamped by a time stamp authority (RFC 3161), one that you trust and that does not
belong to whoever keeps the record. The stamp proves that all entries up to that head were there at that time; nobody can
rewrite them unseen after it, not even with the station's key. The authority sees a hash and nothing else.
CHAIN is the joint, or "station": its head stands for all joints, and its stamp does not go into a joint's package.

  --out FILE        writes the request as a file, to be sent with any tool (CHAIN-ENTRY.tsq)
  --send ADDRESS    sends the request to this http or https address at once, and keeps the answer. Nothing is ever sent without it
  --answer FILE     the answer (.tsr) that came, checked and kept as an entry of the record; the station must not be running.
                    While it runs, hand both files in on the joint's page
  --request FILE    the request (.tsq) that it answers
  --force           write over a file that is there
  --help            this page

Exit status: 0 done, 3 bad input, no record there, no answer, or one that does not hold.

Example: npm run -s ledger -- stamp data node-7
         curl -H 'Content-Type: application/timestamp-query' --data-binary @node-7-118.tsq -o node-7-118.tsr ADDRESS
         npm run -s ledger -- stamp data --answer node-7-118.tsr --request node-7-118.tsq`;

const text = { type: 'string' } as const;
const options = { out: text, send: text, answer: text, request: text, force: { type: 'boolean' } } as const;

interface Files {
  readonly request: Uint8Array;
  readonly answer: Uint8Array;
}

export const stampWith = (wait?: number): Command => {
  const command: Command = {
    name: 'stamp',
    summary: 'a head stamped by a time stamp authority outside, and its answer kept',
    help,
    run: async (args, terminal) => {
      const asked = readArguments(command, options, args, terminal);
      if (typeof asked === 'number') return asked;
      const { out, send, answer, request, force } = asked.values;
      const [folder, chain, ...rest] = asked.positionals;
      const no = (why: string): number => refuse(command, why, terminal);
      if (folder === undefined || rest.length > 0)
        return no('name one record (a folder), and the joint whose head it is');
      if ((answer === undefined) !== (request === undefined)) return no('--answer and --request go together');
      if (send !== undefined && (out ?? answer) !== undefined) return no('--send goes with neither --out nor --answer');
      try {
        if (answer !== undefined && request !== undefined) {
          const files = { request: readFile(request), answer: readFile(answer) };
          return keep(folder, chain, files, terminal);
        }
        if (chain === undefined) return no('name the joint whose head is to be stamped, or "station"');
        return await ask(folder, chain, { out, send, force, wait }, no, terminal);
      } catch (error) {
        if (!(error instanceof RecordRefusal) && !(error instanceof FileFailure)) throw error;
        terminal.err(error.message);
        return exitStatus.failed;
      }
    },
  };
  return command;
};

export const stamp: Command = stampWith();

class FileFailure extends Error {}

const readFile = (path: string): Uint8Array => {
  try {
    return new Uint8Array(readFileSync(path));
  } catch (error) {
    throw new FileFailure(`${path} cannot be read: ${(error as Error).message}. Check the name.`);
  }
};

const writeNew = (path: string, bytes: Uint8Array, force: boolean): void => {
  if (existsSync(path) && !force)
    throw new FileFailure(`${path} is there already; name another with --out, or add --force.`);
  try {
    writeFileSync(path, bytes);
  } catch (error) {
    throw new FileFailure(`${path} cannot be written: ${(error as Error).message}.`);
  }
};

const reading = <T>(folder: string, read: (reader: RecordReader) => T): T => {
  const reader = openRecordReadOnly(folder);
  try {
    return read(reader);
  } finally {
    reader.close();
  }
};

interface How {
  readonly out: string | undefined;
  readonly send: string | undefined;
  readonly force: boolean | undefined;
  readonly wait: number | undefined;
}

const ask = async (
  folder: string,
  chain: string,
  { out, send, force, wait }: How,
  no: (why: string) => number,
  terminal: Terminal,
): Promise<number> => {
  const made = reading(folder, (reader) => requestFor(reader, chain) ?? reader.chains().map((each) => each.chain));
  if (!('request' in made)) return no(`no joint "${chain}" in ${folder}; there are: ${made.join(', ')}`);
  const { head, request } = made;
  const name = `${chain}-${head.seq}`;
  terminal.out(`head: ${headText(head)}`);
  if (send === undefined) {
    const file = out ?? `${name}.tsq`;
    writeNew(file, request, force === true);
    terminal.out(`written: ${file}. Send it to an authority that you trust, as application/timestamp-query; then`);
    terminal.out(`npm run -s ledger -- stamp ${folder} --request ${file} --answer FILE`);
    return exitStatus.done;
  }
  const sent = await sendRequest(send, request, wait);
  if ('failed' in sent) {
    terminal.err(sent.failed);
    return exitStatus.failed;
  }
  try {
    return keep(folder, chain, { request, answer: sent.answer }, terminal);
  } catch (error) {
    // The record is open in the station: what was answered is worth keeping all the same.
    if (!(error instanceof RecordRefusal)) throw error;
    writeNew(`${name}.tsq`, request, true);
    writeNew(`${name}.tsr`, sent.answer, true);
    terminal.err(error.message);
    terminal.err(
      `Not lost: ${name}.tsq and ${name}.tsr are written. Hand them in on the joint's page, or with --answer once the station is stopped.`,
    );
    return exitStatus.failed;
  }
};

const keep = (folder: string, chain: string | undefined, files: Files, terminal: Terminal): number => {
  const checked = reading(folder, (reader) =>
    checkedStamp(reader, chain === undefined ? reader.chains().map((each) => each.chain) : [chain], files),
  );
  if ('refused' in checked) {
    terminal.err(checked.refused);
    return exitStatus.failed;
  }
  write(folder, checked);
  terminal.out(
    `kept in the record of ${checked.head.chain}: entry ${checked.head.seq} was there at ${stampText(checked.stamp)}`,
  );
  terminal.out(trustText(undefined));
  return exitStatus.done;
};

const write = (folder: string, { head, body }: Checked): void => {
  const { rules: program, script } = readProgram();
  const record = openRecord({
    ...{ folder, begin: false, program, now: () => instant(Date.now()), signer: signerBeside(folder) },
    ...(script === undefined ? {} : { rules: script }),
  });
  try {
    record.keepStamp(head.chain, body);
  } finally {
    record.close();
  }
};
