/**
 * An events file (delimited text, one line an act) to acts on a joint: what a person did while an imported
 * log was measured. Its columns are told to people by eventsFileHelp below, which is the one description.
 * Every line is checked by the same schema as an act at the screen; a line that fails is a problem with
 * its number, and nothing is guessed.
 */
import { limits } from '../measure/limits.ts';
import type { Instant } from '../measure/quantity.ts';
import { actSchema, type Input } from '../weld/entry.ts';
import type { Joint } from '../weld/joint.ts';
import { personSchema, roles } from '../weld/person.ts';
import { problems as schemaProblems } from '../weld/problems.ts';
import { strangeNames } from '../weld/strange-names.ts';
import { type CsvItem, csvRecords, delimiterOf } from './csv-records.ts';
import { actOf, eventColumns } from './event-act.ts';
import type { EventFields } from './event-fields.ts';
import { passColumnByField } from './event-pass.ts';
import { type LogProblem, Problems } from './log-problem.ts';
import { isOldWorkbook } from './log-source.ts';
import { readTime, type TimeOptions } from './log-time.ts';
import { encodingOf } from './text-encoding.ts';
import { isZip } from './workbook-parts.ts';

export type ActInput = Extract<Input, { readonly type: 'act' }>;

export interface EventsRead {
  /** In order of time; lines of the same time keep their order. */
  readonly acts: readonly ActInput[];
  readonly problems: readonly LogProblem[];
}

type EventTimes = Pick<TimeOptions, 'start' | 'offsetMinutes' | 'zone'>;

/** With `joint`, a line that names what the joint does not have is a problem too. */
export const readEvents = (
  source: string | Uint8Array,
  { joint, start, offsetMinutes, zone }: EventTimes & { readonly joint?: Joint } = {},
): EventsRead => {
  const bytes = typeof source === 'string' ? new TextEncoder().encode(source) : source;
  const problems = new Problems();
  const timed = [...eventLines(bytes, problems)].flatMap((line) => {
    const text = line.fields.get('time') ?? '';
    const time = readTime(text, { start, offsetMinutes, zone });
    // A line of events has no neighbours that would tell which of two times is meant.
    const isTwofold = time.ok && (time.secondAt !== undefined || time.isSkipped === true);
    if (time.ok && !isTwofold) return [{ ...line, at: time.at }];
    const message = time.ok
      ? `clocks were changed at "${text}"; write it with its offset, as ${text}+01:00`
      : time.problem;
    problems.add({ line: line.line, column: 'time', message });
    return [];
  });
  const acts: ActInput[] = [];
  // By time, so that a line written down late still finds its pass running.
  for (const line of timed.toSorted((a, b) => a.at - b.at)) {
    const act = inputOf(line, acts, problems);
    if (act === undefined) continue;
    const strange = joint === undefined ? [] : strangeNames(act.act, joint);
    tell(problems, line.line, strange);
    if (strange.length === 0) acts.push(act);
  }
  return { acts, problems: problems.list() };
};

export const eventsFileHelp = `An events file is a table in text, with a header and one line for each thing that happened.
Columns are parted by comma, semicolon or tab, in any order. Lines that begin with # are passed over.

  time    when: 2026-11-25T14:03:22+01:00, or a local date-time with the offset stated beside the file,
          or elapsed seconds or h:mm:ss from the start of the log
  kind    heat on | heat off | pass start | pass end | pass details | contact reading |
          check answered | point released | point waived | point refused |
          break begun | break ended | break inspected | welding complete | post-heating begun |
          post-heating ended | cover on | cover off | heat treatment begun | testing begun |
          spot examined | note | accept | calibration | verification | adjustment | close
  place   where. pass start, pass details: A or B for the side, or words, or both: "A, north end".
          contact reading: part/side/face/mm from the groove[/clock], as in plate-1/A/front/10
  who     the named person who did it

Further columns, as the kinds need them:

  role         ${roles.join(' | ')}
  pass         name of the pass. pass start: required. pass end: may be empty while one pass is running
  pass kind    pass start: tack | root | fill | cap | temper bead | attachment | gouging | thermal cutting
  welder       pass start: who welds; empty: the person in "who"
  celsius      contact reading: degrees Celsius; of a crayon the temperature that it is made for
  layer, process, batch  pass start, pass details: the layer, its ISO 4063 process where it is not the
               joint's, the consumable and its batch
  volts, amperes, speed mm/s  pass end, pass details: numbers of the arc. In place of the speed:
               length mm and arc s, the length of the run and the seconds that the arc burnt for it
  energy j     pass end, pass details: what a waveform-controlled source shows for the run, in joules
  revolution s  pass start, pass details: seconds of one revolution of a part that turns
  stops        pass end, pass details: where the run was stopped and taken up again
  instrument   contact reading: which instrument
  instrument kind  contact reading: contact thermometer | crayon | pyrometer
  shows        contact reading with a crayon: at least (it melted) | below (it did not)
  emissivity   contact reading with a pyrometer: what is set on it, as in 0.85
  probe        contact reading: the probe that it was held beside, if any. spot examined: whose spot
  use          contact reading: interpass | zone | opposite face; empty: interpass
  subject      accept: extended range | procedure below calculation
  method       accept: which method, where it matters. testing begun, spot examined, break inspected: by
               which, as in MT
  certificate  calibration: its number. It holds from the time of the line
  calibrated on, due on  calibration: days, as 2026-03-31; due on may be empty
  corrections  calibration: celsius:added:U:k for each point and | between them, as in
               100:-0.4:0.8:2 | 200:-0.6:0.8:2; U and added in kelvin
  reference, reference celsius  verification: beside which instrument, and what that read
  item         check answered, point released, waived or refused: its id in the procedure; the words go into text
  result       check answered: in order | not in order | not applicable.
               verification: within its limit | outside its limit
  text         note, accept and adjustment: the words. close: a closing statement. break begun: why.
               spot examined, break inspected: no indication | indication

Example:

  time,kind,place,who,pass,pass kind,celsius,instrument
  0,heat on,,K. Heater,,,,
  5400,heat off,,K. Heater,,,,
  5900,pass start,A,W. Welder,1,root,,
  6500,pass end,A,W. Welder,1,,,
  6520,contact reading,plate-1/A/front/0,W. Welder,,,214,contact thermometer 3
`;

interface EventLine {
  readonly line: number;
  readonly fields: EventFields;
}

function* eventLines(bytes: Uint8Array, problems: Problems): Generator<EventLine> {
  if (bytes.length === 0) return problems.add({ message: 'the events file is empty' });
  if (bytes.length > limits.eventsMaximum) {
    return problems.add({
      message: `the events file has ${bytes.length} bytes; at most ${limits.eventsMaximum} are read`,
    });
  }
  if (isZip(bytes) || isOldWorkbook(bytes)) {
    return problems.add({ message: 'the events file is a workbook; save the sheet as CSV' });
  }
  const encoding = encodingOf(bytes);
  const records = csvRecords(bytes, delimiterOf(bytes, encoding) ?? ',', encoding);
  const header = records.next().value as CsvItem | undefined;
  if (header === undefined || 'problem' in header) {
    return problems.add({ message: header?.problem ?? 'the events file has no header' });
  }
  const names = header.fields.map((name) => name.toLowerCase().replaceAll('_', ' '));
  if (!isHeader(names, header.line, problems)) return;
  for (const item of records) {
    if ('problem' in item) {
      problems.add({ line: item.line, message: item.problem });
      continue;
    }
    if (item.fields.every((field) => field === '')) continue;
    if (item.fields.length > names.length && item.fields.slice(names.length).some((field) => field !== '')) {
      problems.add({
        line: item.line,
        message: `this line has ${item.fields.length} fields and the header ${names.length}; put words that hold the delimiter into quotes`,
      });
      continue;
    }
    yield { line: item.line, fields: new Map(names.map((name, index) => [name, item.fields[index] ?? ''])) };
  }
}

const isHeader = (names: readonly string[], line: number, problems: Problems): boolean => {
  const missing = ['time', 'kind', 'place', 'who'].filter((name) => !names.includes(name));
  const unknown = names.filter((name) => name !== '' && !eventColumns.includes(name));
  const doubled = names.filter((name, index) => name !== '' && names.indexOf(name) !== index);
  if (missing.length > 0) {
    problems.add({ line, message: `the header lacks ${missing.join(', ')}; it needs time, kind, place and who` });
  }
  if (unknown.length > 0) {
    problems.add({ line, message: `unknown columns ${unknown.join(', ')}; allowed are ${eventColumns.join(', ')}` });
  }
  if (doubled.length > 0) problems.add({ line, message: `the column ${doubled[0]} stands twice` });
  return missing.length === 0 && unknown.length === 0 && doubled.length === 0;
};

const inputOf = (
  { line, fields, at }: EventLine & { readonly at: Instant },
  earlier: readonly ActInput[],
  problems: Problems,
): ActInput | undefined => {
  const role = fields.get('role') ?? '';
  const named = { name: fields.get('who') ?? '', ...(role === '' ? {} : { role: role.toLowerCase() }) };
  const person = personSchema.safeParse(named);
  if (!person.success) tell(problems, line, schemaProblems(person.error, named, personSchema));
  const made = actOf(fields, runningAfter(earlier));
  if ('problem' in made) {
    problems.add({ line, column: made.column, message: made.problem });
    return undefined;
  }
  const act = actSchema.safeParse(made.act);
  if (!act.success) tell(problems, line, schemaProblems(act.error, made.act, actSchema));
  if (!person.success || !act.success) return undefined;
  const { name, role: known } = person.data;
  return { type: 'act', at, who: name, ...(known === undefined ? {} : { role: known }), act: act.data };
};

const tell = (problems: Problems, line: number, found: ReturnType<typeof schemaProblems>): void => {
  for (const { field, found: text, allowed } of found) {
    const column = columnByField[field.replace(/^act\./, '').split('.')[0] ?? ''] ?? 'kind';
    problems.add({ line, column, message: `found ${text}; allowed is ${allowed}` });
  }
};

/** Where a person finds the field of an act in the file. */
const columnByField: Readonly<Record<string, string>> = {
  name: 'who',
  role: 'role',
  pass: 'pass',
  passKind: 'pass kind',
  welder: 'welder',
  side: 'place',
  where: 'place',
  place: 'place',
  celsius: 'celsius',
  instrument: 'instrument',
  instrumentKind: 'instrument kind',
  shows: 'shows',
  emissivity: 'emissivity',
  probe: 'probe',
  use: 'use',
  subject: 'subject',
  method: 'method',
  reason: 'text',
  text: 'text',
  statement: 'text',
  what: 'text',
  certificate: 'certificate',
  calibratedOn: 'calibrated on',
  dueOn: 'due on',
  corrections: 'corrections',
  reference: 'reference',
  readCelsius: 'celsius',
  referenceCelsius: 'reference celsius',
  result: 'result',
  ...passColumnByField,
};

const runningAfter = (acts: readonly ActInput[]): readonly string[] => {
  const running = new Set<string>();
  for (const { act } of acts) {
    if (act.kind === 'pass start') running.add(act.pass);
    if (act.kind === 'pass end') running.delete(act.pass);
  }
  return [...running];
};
