/** `remove-readings RECORD`: the readings of closed joints go out of the record into packages that hold them. Nothing goes by itself. */
import { existsSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { isJointChain } from '../ledger/item.ts';
import { type Instant, instant } from '../measure/quantity.ts';
import { cardOf } from '../past/card.ts';
import { dayBegins } from '../past/days.ts';
import { readProgram } from '../program.ts';
import { RecordRefusal } from '../record/failure.ts';
import { openRecordReadOnly, type RecordReader } from '../record/read.ts';
import type { Fitting } from '../record/retaining.ts';
import { shrink } from '../record/shrink.ts';
import { isDay } from '../weld/day.ts';
import { removalCautions } from '../wording/removal.ts';
import { dateText } from '../wording/time.ts';
import { readArguments, refuse } from './arguments.ts';
import { type Command, exitStatus, type Terminal } from './command.ts';
import { withRecord } from './keep-logs.ts';
import { type Answering, answeringOf, lookAt, signedOptions, sizeText } from './retaining.ts';
import { zoneAsked } from './zone.ts';

const help = `remove-readings RECORD JOINT --package FILE --who NAME --role ROLE --reason TEXT [--do]
remove-readings RECORD --closed-before DAY --packages FOLDER --who NAME --role ROLE --reason TEXT [--do]
remove-readings RECORD --shrink

The record keeps everything, for ever; you need none of this unless it becomes too large. Takes the readings of a closed joint
out of the record in the folder RECORD, into a package (command "package") that holds them. Entries, conclusions, documents,
hashes and signatures stay; an entry of the joint says who removed the readings, when, why, and which package holds them. The
package is verified first: intact, signed by this record's key, its entries those of the joint, all readings in it.

KEEP TWO COPIES OF THE PACKAGE IN TWO PLACES: the readings can then be shown and judged again from it only. They come back with
"put-back-readings". Ask first what contract, code and law want kept, and for how long.

Without --do it says what would go, and nothing is done. The station must not be running; while it runs, do it on the joint's page.

  --package FILE          the package (.zip) of JOINT
  --closed-before DAY     all joints that were closed before that day, as 2016-01-01, whose packages lie in
  --packages FOLDER       this folder; what has no package there stays
  --zone ZONE             calendar of that day, as Europe/Oslo; absent: that of this computer
  --who NAME --role ROLE  who does it: coordinator
  --reason TEXT           why; it stands in the record
  --do                    do it
  --shrink                only make the file as small as what is in it; done after every removal, too
  --help                  this page

Exit status: 0 done or listed, 3 bad input, or something of it not done.

Example: npm run -s ledger -- package data node-7 --out archive/node-7.zip
         npm run -s ledger -- remove-readings data node-7 --package archive/node-7.zip \\
           --who "Imke Sorel" --role coordinator --reason "ten years are over"`;

const text = { type: 'string' } as const;
const flag = { type: 'boolean' } as const;
const options = {
  ...signedOptions,
  ...{ package: text, 'closed-before': text, packages: text, zone: text, do: flag, shrink: flag },
} as const;

export const removeReadings: Command = {
  name: 'remove-readings',
  summary: 'readings of closed joints out of the record, into packages that hold them',
  help,
  run: async (args, terminal) => {
    const asked = readArguments(removeReadings, options, args, terminal);
    if (typeof asked === 'number') return asked;
    const no = (why: string): number => refuse(removeReadings, why, terminal);
    const [folder, joint, ...rest] = asked.positionals;
    const { values } = asked;
    if (folder === undefined || rest.length > 0) return no('name one record (a folder), and the joint');
    if (values.shrink === true) return shrinking(folder, terminal);
    const zone = zoneAsked(removeReadings, values.zone, terminal);
    if (typeof zone === 'number') return zone;
    const wanted = wantedOf(joint, values, zone);
    if (typeof wanted === 'string') return no(wanted);
    const answering = answeringOf('remove readings', values);
    if (typeof answering === 'string') return no(answering);
    return values.do === true ? doIt(folder, wanted, answering, terminal) : onlyLook(folder, wanted, terminal);
  },
};

/** One joint with its package, or all that were closed before an instant with a folder of packages. */
type Wanted =
  | { readonly joint: string; readonly path: string }
  | { readonly before: Instant; readonly packages: string };

interface Given {
  readonly package?: string | undefined;
  readonly 'closed-before'?: string | undefined;
  readonly packages?: string | undefined;
}

const wantedOf = (joint: string | undefined, given: Given, zone: string): Wanted | string => {
  const { package: path, 'closed-before': day, packages } = given;
  if (day === undefined && packages === undefined) {
    if (joint === undefined) return 'name the joint, or give --closed-before DAY and --packages FOLDER';
    if (path === undefined) return `--package FILE names the package that holds the readings of ${joint}`;
    return { joint, path };
  }
  if (day === undefined || packages === undefined) return '--closed-before and --packages go together';
  if (joint !== undefined || path !== undefined) return '--closed-before goes with neither a joint nor --package';
  if (!isDay(day)) return `--closed-before wants a day, as 2016-01-01; found "${day}"`;
  if (!existsSync(packages)) return `--packages: there is no folder ${packages}`;
  return { before: dayBegins(day, zone), packages };
};

interface Plan {
  readonly going: readonly { readonly path: string; readonly fitting: Fitting }[];
  readonly staying: readonly string[];
}

const planOf = (reader: RecordReader, wanted: Wanted): Plan => {
  if ('path' in wanted) {
    const looked = lookAt(reader, wanted.path, 'remove', wanted.joint);
    return 'refused' in looked
      ? { going: [], staying: [looked.refused] }
      : { going: [{ path: wanted.path, fitting: looked.fitting }], staying: [] };
  }
  const left = new Map(closedBefore(reader, wanted.before).map(({ chain, closedAt }) => [chain, closedAt]));
  const going: Plan['going'][number][] = [];
  const refused: string[] = [];
  const files = readdirSync(wanted.packages).filter((name) => name.endsWith('.zip'));
  for (const path of files.sort().map((name) => join(wanted.packages, name))) {
    const looked = lookAt(reader, path, 'remove');
    if ('refused' in looked) refused.push(looked.refused);
    else if (left.delete(looked.fitting.chain)) going.push({ path, fitting: looked.fitting });
  }
  const without = [...left].map(
    ([chain, at]) => `${chain}, closed ${dateText(at, 'UTC')}: no package in ${wanted.packages} that fits. It stays.`,
  );
  return { going, staying: [...without, ...refused] };
};

/** With readings that are still here. */
const closedBefore = (reader: RecordReader, before: Instant) =>
  reader.chains().flatMap(({ chain, open }) => {
    if (!isJointChain(chain) || open || reader.blocks(chain).length === 0 || reader.removed(chain) !== undefined)
      return [];
    const closedAt = cardOf(chain, reader.entries(chain))?.closedAt;
    return closedAt !== undefined && closedAt < before ? [{ chain, closedAt }] : [];
  });

const tell = ({ going, staying }: Plan, verb: string, terminal: Terminal): void => {
  for (const { path, fitting } of going) {
    const { chain, body, bytesHere } = fitting;
    terminal.out(`${verb}: ${body.scans} scans of ${chain}, ${sizeText(bytesHere)} in the record. They are in ${path}`);
    terminal.out(`  SHA-256 ${body.package}`);
  }
  for (const why of staying) terminal.err(why);
};

const onlyLook = (folder: string, wanted: Wanted, terminal: Terminal): number => {
  try {
    const reader = openRecordReadOnly(folder);
    try {
      const plan = planOf(reader, wanted);
      tell(plan, 'Would go', terminal);
      if (plan.going.length > 0) {
        terminal.out(`${sum(plan)} in all. Nothing was done. To do it give the same command again with --do.`);
        for (const caution of removalCautions) terminal.out(caution);
      } else terminal.err('Nothing was done: nothing can go.');
      return plan.going.length > 0 ? exitStatus.done : exitStatus.failed;
    } finally {
      reader.close();
    }
  } catch (error) {
    if (!(error instanceof RecordRefusal)) throw error;
    terminal.err(error.message);
    return exitStatus.failed;
  }
};

const doIt = (folder: string, wanted: Wanted, answering: Answering, terminal: Terminal): number => {
  let plan: Plan = { going: [], staying: [] };
  const gone: Plan['going'][number][] = [];
  const wrong = withRecord({ folder, begin: false }, readProgram(), (record) => {
    plan = planOf(record, wanted);
    for (const each of plan.going) {
      record.removeReadings(each.fitting, { ...answering, at: instant(Date.now()) });
      gone.push(each);
    }
    return undefined;
  });
  if (wrong !== undefined) terminal.err(wrong);
  tell({ ...plan, going: gone }, 'Removed', terminal);
  if (gone.length === 0) {
    terminal.err('Nothing was done.');
    return exitStatus.failed;
  }
  for (const caution of removalCautions) terminal.out(caution);
  const shrunk = shrinking(folder, terminal);
  return wrong !== undefined || plan.staying.length > 0 ? exitStatus.failed : shrunk;
};

const sum = ({ going }: Plan): string => sizeText(going.reduce((all, { fitting }) => all + fitting.bytesHere, 0));

const shrinking = (folder: string, terminal: Terminal): number => {
  try {
    const { before, after } = shrink(folder);
    terminal.out(`The file of the record: ${sizeText(before)} before, ${sizeText(after)} now.`);
    return exitStatus.done;
  } catch (error) {
    if (!(error instanceof RecordRefusal)) throw error;
    terminal.err(error.message);
    return exitStatus.failed;
  }
};
