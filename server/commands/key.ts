/** `key RECORD`: which key signs a record, and another one in its place. The private key is never shown. */
import { fingerprintOf, pemOfKey } from '../ledger/keys.ts';
import { limits } from '../measure/limits.ts';
import { instant } from '../measure/quantity.ts';
import { readProgram } from '../program.ts';
import { RecordRefusal } from '../record/failure.ts';
import { inspectRecord } from '../record/inspection.ts';
import { keyFileOf, prepareKey, signerBeside } from '../record/key-file.ts';
import { openRecord } from '../record/store.ts';
import { readArguments, refuse } from './arguments.ts';
import { type Command, exitStatus, type Terminal } from './command.ts';

const help = `key RECORD [--new --reason TEXT [--lost]]

Tells which keys sign the record in the folder RECORD: number, fingerprint, and the public key as OpenSSL reads it.
The private key lies beside that folder, in RECORD.key.pem. Keep a copy of it where only you reach it, and never with the
record: whoever has it can write a record that looks like yours.

  --new           another key signs from here on. The old one signs the new one in, so that it can be followed.
                  The station must not be running.
  --reason TEXT   why; it stands in the record
  --lost          the old key is lost. The new one is then not signed in by it, and whoever verifies the record is told.
  --help          this page

Exit status: 0 done, 3 bad input or no record there.

Example: npm run -s ledger -- key data --new --reason "the computer is handed on"`;

export const key: Command = {
  name: 'key',
  summary: 'which key signs a record, and another one in its place',
  help,
  run: async (args, terminal) => {
    const options = { new: { type: 'boolean' }, lost: { type: 'boolean' }, reason: { type: 'string' } } as const;
    const asked = readArguments(key, options, args, terminal);
    if (typeof asked === 'number') return asked;
    const [folder, ...rest] = asked.positionals;
    if (folder === undefined || rest.length > 0) return refuse(key, 'name one record (a folder)', terminal);
    const { new: change, lost } = asked.values;
    const reason = asked.values.reason?.trim() ?? '';
    if (change !== true && (lost === true || reason !== ''))
      return refuse(key, '--reason and --lost go with --new', terminal);
    if (change === true && (reason === '' || reason.length > limits.textMaximum))
      return refuse(key, `--new wants --reason with 1 to ${limits.textMaximum} characters`, terminal);
    try {
      if (change === true) changeKey(folder, reason, lost === true);
      tellKeys(folder, terminal);
      return exitStatus.done;
    } catch (error) {
      if (!(error instanceof RecordRefusal)) throw error;
      terminal.err(error.message);
      return exitStatus.failed;
    }
  },
};

function changeKey(folder: string, reason: string, lost: boolean): void {
  const now = () => instant(Date.now());
  const program = readProgram();
  const next = prepareKey(folder);
  const signer = lost ? () => next.signer : signerBeside(folder);
  const record = openRecord({
    folder,
    begin: false,
    program: program.rules,
    ...(program.script === undefined ? {} : { rules: program.script }),
    now,
    signer,
    ...(lost ? { lost: reason } : {}),
  });
  try {
    if (!lost) record.changeKey(next.signer, reason);
  } finally {
    record.close();
  }
  next.take();
}

function tellKeys(folder: string, terminal: Terminal): void {
  const { keys } = inspectRecord(folder);
  if (keys.length === 0) {
    terminal.out('NOT SIGNED: this record has no key. It gets one when a station next writes to it.');
    return;
  }
  for (const { number, key, seq } of keys) {
    terminal.out(`key ${number}, from entry ${seq} of the station's chain on: fingerprint ${fingerprintOf(key)}`);
    terminal.out(pemOfKey(key).trimEnd());
  }
  terminal.out(`private key: ${keyFileOf(folder)}`);
}
