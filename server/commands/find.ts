/** `find RECORD WORDS`: which joints of a record are meant, months later. Reads only, and may run beside a station. */
import { writeFileSync } from 'node:fs';
import { runPast } from '../errands/past.ts';
import { limits } from '../measure/limits.ts';
import type { FoundJoint, FoundView } from '../past/view.ts';
import { standText } from '../past/words.ts';
import { readProgram } from '../program.ts';
import { foundText } from '../wording/counts.ts';
import { dateText } from '../wording/time.ts';
import { sourceMark } from '../wording/words.ts';
import { readArguments, refuse } from './arguments.ts';
import { askedHelp, askedOf, askedOptions } from './asked-options.ts';
import { type Command, exitStatus } from './command.ts';
import { withRecord } from './with-record.ts';

const help = `find RECORD [WORDS...] [options]

Looks through all joints of a record (the folder given to serve as --data), open ones too, newest first. Each word has to stand
somewhere: in id, title, drawing, workshop, part, steel, heat, certificate, procedure, revision, person, consumable, instrument. A part
of a word is enough; capitals and accents do not count. The verdict told is the one that was recorded.

${askedHelp}
  --help                  this page

Exit status: 0 answered, also where nothing is found; 3 bad input or no record there.

Example: npm run -s ledger -- find data 77/31 --verdict does-not-comply`;

export const find: Command = {
  name: 'find',
  summary: 'joints of a record by words, person, date, verdict, finding',
  help,
  run: async (args, terminal) => {
    const read = readArguments(find, askedOptions, args, terminal);
    if (typeof read === 'number') return read;
    const [folder, ...words] = read.positionals;
    if (folder === undefined) return refuse(find, 'which record? Name its folder first', terminal);
    const question = askedOf(find, words, read.values, terminal);
    if (typeof question === 'number') return question;
    const { asked, zone, csv } = question;
    return withRecord(find, folder, terminal, (reader) => {
      const program = readProgram();
      const view = runPast({ kind: 'find', asked, from: 0, count: limits.foundMaximum }, reader, program) as FoundView;
      if (csv !== undefined) {
        writeFileSync(csv, runPast({ kind: 'found as CSV', asked, zone }, reader, program) as Uint8Array);
        terminal.err(`written: ${csv}`);
      }
      terminal.out(read.values.json === true ? JSON.stringify(view, undefined, 2) : textOf(view, zone));
      return exitStatus.done;
    });
  },
};

const textOf = ({ found, searched, joints }: FoundView, zone: string): string =>
  [
    foundText(found, searched),
    ...joints.flatMap((joint) => ['', ...linesOf(joint, zone)]),
    ...(joints.length < found
      ? ['', `And ${found - joints.length} more: ask for less, or take them all with --csv FILE.`]
      : []),
  ].join('\n');

function linesOf(joint: FoundJoint, zone: string): string[] {
  const { id, title, procedure, welders, passes, findings, places, repairOf, source, notRead } = joint;
  const mark = sourceMark({ kind: source });
  const facts = [
    ...(procedure === undefined ? [] : [`${procedure.id} revision ${procedure.revision}`]),
    `${passes} ${passes === 1 ? 'pass' : 'passes'}${welders.length === 0 ? '' : ` by ${welders.join(', ')}`}`,
    ...(repairOf === undefined ? [] : [`repair of ${repairOf}`]),
  ];
  return [
    `${id}: ${title}${mark === undefined ? '' : ` [${mark}]`}`,
    `  ${standText(joint)}; ${spanText(joint, zone)}`,
    `  ${facts.join('; ')}`,
    ...(findings.length === 0 ? [] : [`  findings: ${findings.join(', ')}`]),
    ...(places.length === 0 ? [] : [`  found in: ${places.map(({ field, text }) => `${field} "${text}"`).join(', ')}`]),
    ...(notRead === undefined ? [] : [`  NOT READ TO THE END: ${notRead}`]),
  ];
}

const spanText = ({ openedAt, lastAt }: FoundJoint, zone: string): string => {
  const [first, last] = [dateText(openedAt, zone), dateText(lastAt, zone)];
  return first === last ? first : `${first} to ${last}`;
};
