/** `what-if RECORD JOINT`: the same judge over a joint's record with one stated change. Reads only, records nothing. */

import { runPast } from '../errands/past.ts';
import { inputOf, isJointChain } from '../ledger/item.ts';
import type { Instant } from '../measure/quantity.ts';
import { type UnitSystem, unitsOf } from '../measure/units.ts';
import { momentOf } from '../past/days.ts';
import type { FoundView } from '../past/view.ts';
import { readProgram } from '../program.ts';
import type { RecordReader } from '../record/read.ts';
import type { SupposedAnswer } from '../supposing/answer.ts';
import { suppose } from '../supposing/suppose.ts';
import { type Supposition, suppositionSchema } from '../supposing/supposition.ts';
import { arrival } from '../weld/entry.ts';
import type { Joint } from '../weld/joint.ts';
import { type Problem, problems } from '../weld/problems.ts';
import {
  changeText,
  momentRows,
  notTheRecord,
  outcomeText,
  placeText,
  remarkText,
  stoodText,
  supposedText,
  whatItIs,
} from '../wording/supposing.ts';
import { instantText } from '../wording/time.ts';
import { readArguments, refuse } from './arguments.ts';
import { type Command, exitStatus, type Terminal } from './command.ts';
import { withRecord } from './with-record.ts';
import { zoneAsked } from './zone.ts';

const help = `what-if RECORD JOINT ONE CHANGE [--at TIME] [--zone ZONE] [--json]

Runs the judge again over the record of a joint with one thing supposed otherwise, and says what would have come of it: when all would
have been ready, which findings would go or come, the verdict beside the one that is. It is NOT THE RECORD: nothing is recorded, nothing
changed. What cannot be known is said. One change:

  --insulated             the face that is not heated had been insulated
  --without PROBE         that probe had never been fitted
  --later MINUTES --pass PASS
                          the pass had begun so many minutes later, and nothing else had been done until then
  --minimum CELSIUS, --interpass CELSIUS, --hold MINUTES, --core MINUTES
                          the procedure had asked for that (minimum preheat, maximum interpass, hold with heaters on, time at the
                          minimum through the thickness); several may be given together

  --at TIME               as the record stood then, by what had been recorded: 13:05, or "2026-11-25 13:05"; absent: as it stands.
                          A joint that is still open can be asked about too
  --zone ZONE             clock of the answer, as Europe/Oslo; absent: that of this computer
  --json                  the answer as JSON
  --help                  this page

Exit status: 0 answered, 3 bad input or no such joint.

Example: npm run -s ledger -- what-if data seam-4 --later 2 --pass 4`;

const options = {
  insulated: { type: 'boolean' },
  without: { type: 'string' },
  later: { type: 'string' },
  pass: { type: 'string' },
  minimum: { type: 'string' },
  interpass: { type: 'string' },
  hold: { type: 'string' },
  core: { type: 'string' },
  at: { type: 'string' },
  zone: { type: 'string' },
  json: { type: 'boolean' },
} as const;

export const whatIf: Command = {
  name: 'what-if',
  summary: 'a joint judged again with one thing supposed otherwise; never recorded',
  help,
  run: async (args, terminal) => {
    const read = readArguments(whatIf, options, args, terminal);
    if (typeof read === 'number') return read;
    const [folder, joint, ...rest] = read.positionals;
    if (folder === undefined || joint === undefined || rest.length > 0)
      return refuse(whatIf, 'name one record (a folder) and one joint', terminal);
    const zone = zoneAsked(whatIf, read.values.zone, terminal);
    if (typeof zone === 'number') return zone;
    const supposed = supposedBy(read.values);
    if ('problems' in supposed) return told(supposed.problems, terminal);
    return withRecord(whatIf, folder, terminal, (reader) => {
      if (!isJointChain(joint) || reader.head(joint).seq === 0)
        return refuse(whatIf, `no joint "${joint}" in ${folder}${likely(reader, joint)}`, terminal);
      const at = momentAsked(reader, joint, read.values.at, zone);
      if (at === 'none')
        return refuse(whatIf, `--at ${read.values.at}: no moment; as 13:05, or "2026-11-25 13:05"`, terminal);
      const answer = suppose(reader.inputs(joint), at === undefined ? { supposed } : { supposed, at });
      if ('problems' in answer) return told(answer.problems, terminal);
      const json = { note: notTheRecord, ...answer };
      terminal.out(
        read.values.json === true ? JSON.stringify(json, undefined, 2) : textOf(answer, unitsIn(reader, joint), zone),
      );
      return exitStatus.done;
    });
  },
};

type Given = { readonly [name in keyof typeof options]?: string | boolean | undefined };

/** By the clock of the zone; a time without a day is the newest such one of the joint's record. */
function momentAsked(
  reader: RecordReader,
  joint: string,
  given: string | undefined,
  zone: string,
): Instant | 'none' | undefined {
  if (given === undefined) return undefined;
  let newest = 0 as Instant;
  for (const input of reader.inputs(joint)) newest = Math.max(newest, arrival(input)) as Instant;
  return momentOf(given, newest, zone) ?? 'none';
}

/** The one change that was asked for. */
function supposedBy(given: Given): Supposition | { readonly problems: readonly Problem[] } {
  const number = (text: string | boolean | undefined): number | undefined =>
    text === undefined ? undefined : Number(typeof text === 'string' ? text.replace(',', '.') : Number.NaN);
  const limits = {
    preheatMinimumCelsius: number(given.minimum),
    interpassMaximumCelsius: number(given.interpass),
    soakHoldMinutes: number(given.hold),
    throughThicknessHoldMinutes: number(given.core),
  };
  const asked = [
    ...(given.insulated === true ? [{ kind: 'far face insulated' }] : []),
    ...(given.without === undefined ? [] : [{ kind: 'probe left out', probe: given.without }]),
    ...(given.later === undefined && given.pass === undefined
      ? []
      : [{ kind: 'more time', pass: given.pass, minutes: number(given.later) }]),
    ...(Object.values(limits).every((value) => value === undefined) ? [] : [{ kind: 'other limits', ...limits }]),
  ];
  const [first] = asked;
  if (asked.length !== 1)
    return { problems: [{ field: 'change', found: `${asked.length} changes`, allowed: 'one change; see --help' }] };
  const parsed = suppositionSchema.safeParse(first);
  return parsed.success ? parsed.data : { problems: problems(parsed.error, first, suppositionSchema) };
}

const told = (found: readonly Problem[], terminal: Terminal): number =>
  refuse(
    whatIf,
    found.map((each) => `${each.field}: found ${each.found}; allowed: ${each.allowed}`).join('\n'),
    terminal,
  );

/** Whoever mistyped an id is told what it may have been. */
function likely(reader: RecordReader, joint: string): string {
  const asked = { words: joint.split(/[^\p{L}\p{N}]+/u)[0] ?? '' };
  const { joints } = runPast({ kind: 'find', asked, from: 0, count: 6 }, reader, readProgram()) as FoundView;
  return joints.length === 0
    ? '; look for it with the command "find"'
    : `; perhaps ${joints.map(({ id }) => id).join(', ')}`;
}

function unitsIn(reader: RecordReader, chain: string): UnitSystem {
  let joint: Joint | undefined;
  for (const entry of reader.entries(chain)) {
    const input = inputOf(entry);
    if (input?.type === 'station' && input.event.kind === 'opened') joint = input.event.joint;
    if (input?.type === 'act' && input.act.kind === 'revise') joint = input.act.joint;
  }
  return joint === undefined ? 'metric' : unitsOf(joint);
}

function textOf(answer: SupposedAnswer, units: UnitSystem, zone: string): string {
  const tell = (at: Instant): string => instantText(at, zone);
  const stood = stoodText(answer.stood, tell);
  const { gone, come, unsure, places = [], remarks } = answer;
  const listed = (title: string, lines: readonly string[]): string[] =>
    lines.length === 0 ? [] : ['', title, ...lines.map((line) => `  ${line}`)];
  return [
    notTheRecord,
    `${supposedText(answer.supposition, units)}:`,
    ...(stood === undefined ? [] : [stood]),
    outcomeText(answer),
    ...momentRows(answer, tell).map(([what, is, would]) => `  ${what}: ${is}; would be: ${would}`),
    ...listed(
      'Places when the pass would have begun:',
      places.map((each) => placeText(each, units)),
    ),
    ...listed(
      'Findings that would go:',
      gone.map((each) => changeText(each, units)),
    ),
    ...listed(
      'Findings that would come:',
      come.map((each) => changeText(each, units)),
    ),
    ...listed(
      'Cannot be known:',
      unsure.map((each) => changeText(each, units)),
    ),
    ...listed('What this takes for granted:', remarks.map(remarkText)),
    '',
    whatItIs,
  ].join('\n');
}
