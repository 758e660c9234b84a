/** `put-back-readings RECORD --package FILE`: readings that were removed come back from the package that holds them. */
import { instant } from '../measure/quantity.ts';
import { readProgram } from '../program.ts';
import { readingsFrom } from '../record/retaining.ts';
import { readArguments, refuse } from './arguments.ts';
import { type Command, exitStatus } from './command.ts';
import { withRecord } from './keep-logs.ts';
import { answeringOf, lookAt, signedOptions } from './retaining.ts';

const help = `put-back-readings RECORD --package FILE --who NAME --role ROLE [--reason TEXT]

Puts the readings of a joint back into the record in the folder RECORD, from the package FILE that holds them (command
"remove-readings" took them out). The package is verified first, and every block of readings compared with the hash in its
entry. An entry of the joint says who did it. The station must not be running; while it runs, do it on the joint's page.

  --package FILE          the package (.zip); the one that the record names, or another one of that joint that holds the same
  --who NAME --role ROLE  who does it: coordinator
  --reason TEXT           why, if that is to stand in the record
  --help                  this page

Exit status: 0 done, 3 not done.

Example: npm run -s ledger -- put-back-readings data --package node-7.zip --who "Imke Sorel" --role coordinator`;

export const putBackReadings: Command = {
  name: 'put-back-readings',
  summary: 'readings that were removed, back from the package that holds them',
  help,
  run: async (args, terminal) => {
    const options = { ...signedOptions, package: { type: 'string' } } as const;
    const asked = readArguments(putBackReadings, options, args, terminal);
    if (typeof asked === 'number') return asked;
    const [folder, ...rest] = asked.positionals;
    const path = asked.values.package;
    if (folder === undefined || rest.length > 0) return refuse(putBackReadings, 'name one record (a folder)', terminal);
    if (path === undefined)
      return refuse(putBackReadings, '--package FILE names the package that holds the readings', terminal);
    const answering = answeringOf('put readings back', asked.values);
    if (typeof answering === 'string') return refuse(putBackReadings, answering, terminal);
    const wrong = withRecord({ folder, begin: false }, readProgram(), (record) => {
      const looked = lookAt(record, path, 'put back');
      if ('refused' in looked) return looked.refused;
      const { held, fitting } = looked;
      record.putBackReadings(fitting, readingsFrom(record, held), { ...answering, at: instant(Date.now()) });
      terminal.out(`Put back: ${fitting.body.scans} scans of ${fitting.chain}, from ${path} (SHA-256 ${held.sha256}).`);
      return undefined;
    });
    if (wrong === undefined) return exitStatus.done;
    terminal.err(wrong);
    return exitStatus.failed;
  },
};
