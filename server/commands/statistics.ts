/** `statistics RECORD`: counts over past joints, each with how many it is made of. Reads only, and may run beside a station. */
import { writeFileSync } from 'node:fs';
import { runPast } from '../errands/past.ts';
import type { PeriodKind } from '../past/period.ts';
import type { Row, SourceStatistics, Statistics } from '../past/statistics.ts';
import { findingName, howCounted } from '../past/words.ts';
import { readProgram } from '../program.ts';
import { jointsText, shareText, timesInAllText, timesText } from '../wording/counts.ts';
import { verdictHeadline } from '../wording/words.ts';
import { readArguments, refuse } from './arguments.ts';
import { askedHelp, askedOf, askedOptions } from './asked-options.ts';
import { type Command, exitStatus } from './command.ts';
import { withRecord } from './with-record.ts';

const help = `statistics RECORD [WORDS...] [options]

Counts over the joints of a record (the folder given to serve as --data): verdicts, procedures, steels, months, findings, time from
heat to the first arc, holds lost, interpass, faults of probes, breaks, welders. All of it out of the record. What was measured,
simulated or imported is counted apart. Words and options narrow to the joints that "find" finds with them.

${askedHelp}
  --weeks                 the course by weeks instead of months
  --help                  this page

Exit status: 0 answered, 3 bad input or no record there.

Example: npm run -s ledger -- statistics data --from 2026-01-01 --procedure WPS-50-2`;

export const statistics: Command = {
  name: 'statistics',
  summary: 'counts over the joints of a record, each with what it is made of',
  help,
  run: async (args, terminal) => {
    const read = readArguments(statistics, { ...askedOptions, weeks: { type: 'boolean' } }, args, terminal);
    if (typeof read === 'number') return read;
    const [folder, ...words] = read.positionals;
    if (folder === undefined) return refuse(statistics, 'which record? Name its folder first', terminal);
    const { weeks, ...given } = read.values;
    const question = askedOf(statistics, words, given, terminal);
    if (typeof question === 'number') return question;
    const { asked, zone, csv } = question;
    const period: PeriodKind = weeks === true ? 'week' : 'month';
    return withRecord(statistics, folder, terminal, (reader) => {
      const program = readProgram();
      const counted = runPast({ kind: 'statistics', asked, period, zone }, reader, program) as Statistics;
      if (csv !== undefined) {
        writeFileSync(csv, runPast({ kind: 'statistics as CSV', asked, period, zone }, reader, program) as Uint8Array);
        terminal.err(`written: ${csv}`);
      }
      terminal.out(given.json === true ? JSON.stringify(counted, undefined, 2) : textOf(counted));
      return exitStatus.done;
    });
  },
};

const textOf = ({ joints, period, sources }: Statistics): string =>
  joints === 0
    ? 'No joint to count.'
    : [
        ...sources.flatMap((each) => [...linesOf(each, period), '']),
        'How each figure is made:',
        ...Object.values(howCounted).map((how) => `  ${how}`),
      ].join('\n');

const linesOf = (of: SourceStatistics, period: PeriodKind): string[] => [
  `${of.source.toUpperCase()}: ${jointsText(of.joints)}, ${of.open} open${of.notRead > 0 ? `, ${of.notRead} not read to the end` : ''}`,
  `  closed: ${verdictsText(of.verdicts)}`,
  ...table('by procedure', of.byProcedure),
  ...table('by steel', of.bySteel),
  ...table('by heat', of.byHeat),
  ...table(`by ${period}`, of.byPeriod),
  ...(of.findings.length === 0 ? [] : ['  findings']),
  ...of.findings.map(
    ({ kind, joints, times }) =>
      `    ${findingName(kind)}: in ${joints} of ${jointsText(of.joints)}, ${timesInAllText(times)}`,
  ),
  `  heat on to first arc: ${timesText(of.heatToArc)}, ${of.heatToArc.leftOut} left out`,
  `  hold lost: ${shareText(of.holdLost)}, ${timesInAllText(of.holdLost.times)}`,
  `  interpass above maximum: ${shareText(of.interpass)} passes; left out: ${of.interpass.noMaximum} without a maximum, ${of.interpass.notJudged} not judged`,
  `  with a declared break: ${shareText(of.breaks)}, ${timesInAllText(of.breaks.times)}`,
  ...(of.probes.length === 0 ? [] : ['  faults of probes']),
  ...of.probes.map(
    ({ name, faulty, joints, times, kinds }) =>
      `    ${name}: ${faulty} of ${jointsText(joints)}, ${timesInAllText(times)} (${kinds.join(', ')})`,
  ),
  ...(of.welders.length === 0 ? [] : ['  passes with a limit not kept, by welder, in the order of names']),
  ...of.welders.map(({ name, joints, passes }) => `    ${name}: ${shareText(passes)} passes, ${jointsText(joints)}`),
];

const table = (name: string, rows: readonly Row[]): string[] =>
  rows.length === 0 ? [] : [`  ${name}`, ...rows.map((row) => `    ${row.name}: ${verdictsText(row)}`)];

const verdictsText = (row: Omit<Row, 'name'>): string =>
  `${(['complies', 'does-not-comply', 'cannot-be-judged'] as const)
    .map((verdict) => `${row[verdict]} ${verdictHeadline(verdict).toLowerCase()}`)
    .join(', ')} (n ${row.n})`;
