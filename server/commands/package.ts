/** `package RECORD JOINT`: one file that a stranger can verify without this program. May run beside a station. */
import { existsSync, writeFileSync } from 'node:fs';
import { packageOf } from '../errands/errand.ts';
import { isJointChain } from '../ledger/item.ts';
import { readProgram } from '../program.ts';
import { RecordRefusal } from '../record/failure.ts';
import { sealBeside } from '../record/key-file.ts';
import { openRecordReadOnly } from '../record/read.ts';
import { readArguments, refuse } from './arguments.ts';
import { type Command, exitStatus } from './command.ts';
import { zoneAsked } from './zone.ts';

const help = `package RECORD JOINT [--out FILE] [--zone ZONE] [--force]

Writes one .zip file of the joint JOINT of the record in the folder RECORD: all entries and readings with their signatures,
documents and photos, report, CSV, the public key, the rules that judged, a text that tells how to verify it with common
tools, and a page that does it without a network. Give that file to whoever wants to check the work. It holds all that was
entered, with names; it never holds the private key.

  --out FILE    where to (JOINT.zip)
  --zone ZONE   IANA name of the zone that local times of report and CSV are printed in (UTC)
  --force       write over a file that is there
  --help        this page

Exit status: 0 written, 3 bad input, no record there, or it cannot be written.

Example: npm run -s ledger -- package data node-7 --out node-7.zip --zone Europe/Berlin`;

export const packageCommand: Command = {
  name: 'package',
  summary: 'one file of a joint that a stranger can verify without this program',
  help,
  run: async (args, terminal) => {
    const options = { out: { type: 'string' }, zone: { type: 'string' }, force: { type: 'boolean' } } as const;
    const asked = readArguments(packageCommand, options, args, terminal);
    if (typeof asked === 'number') return asked;
    const [folder, joint, ...rest] = asked.positionals;
    if (folder === undefined || joint === undefined || rest.length > 0)
      return refuse(packageCommand, 'name one record (a folder) and one joint', terminal);
    const out = asked.values.out ?? `${joint}.zip`;
    const zone = zoneAsked(packageCommand, asked.values.zone ?? 'UTC', terminal);
    if (typeof zone === 'number') return zone;
    if (existsSync(out) && asked.values.force !== true)
      return refuse(packageCommand, `${out} is there already; name another with --out, or add --force`, terminal);
    try {
      const reader = openRecordReadOnly(folder);
      try {
        if (!reader.chains().some(({ chain }) => chain === joint && isJointChain(chain))) {
          const names = reader.chains().flatMap(({ chain }) => (isJointChain(chain) ? [chain] : []));
          return refuse(packageCommand, `no joint "${joint}" in ${folder}; there are: ${names.join(', ')}`, terminal);
        }
        const seal = sealBeside(folder);
        const made = await packageOf(reader, { joint, zone }, readProgram(), seal);
        writeFileSync(out, made);
        terminal.out(`written: ${out}, ${made.length} bytes`);
        if (seal === undefined)
          terminal.err('NOT SEALED: there is no key beside the record, so nothing vouches for report and CSV in it.');
        return exitStatus.done;
      } finally {
        reader.close();
      }
    } catch (error) {
      if (error instanceof RecordRefusal) terminal.err(error.message);
      else terminal.err(`${out}: cannot be written. ${error instanceof Error ? error.message : String(error)}`);
      return exitStatus.failed;
    }
  },
};
