/** Acts that are typed on the page of logs, as the lines of an events file, so that both are read by the same rules. */
import { roles } from '../../../server/weld/person.ts';

/** By the columns of an events file. */
export type ActRow = Readonly<Partial<Record<ActColumn, string>>>;
export type ActColumn = (typeof columns)[number];

const columns = [
  'time',
  'kind',
  'place',
  'who',
  'role',
  'pass',
  'pass kind',
  'welder',
  'volts',
  'amperes',
  'speed mm/s',
  'celsius',
  'instrument',
  'use',
  'item',
  'result',
  'method',
  'probe',
  'text',
] as const;

export interface ActField {
  readonly column: ActColumn;
  readonly label: string;
  /** Absent: typed. */
  readonly choices?: readonly string[];
  readonly optional?: true;
}

const pass: ActField = { column: 'pass', label: 'Pass' };
const words = (label: string): ActField => ({ column: 'text', label });
const noIndication = { column: 'text', label: 'What was found', choices: ['no indication', 'indication'] } as const;
const method: ActField = { column: 'method', label: 'How, as in MT' };
const item: ActField = { column: 'item', label: 'Its id in the procedure' };
const passKinds = ['root', 'fill', 'cap', 'tack', 'temper bead', 'attachment', 'gouging', 'thermal cutting'] as const;

/** What each kind wants beside time and person. Kinds and columns are those of an events file. */
export const actFields: Readonly<Record<string, readonly ActField[]>> = {
  'heat on': [],
  'heat off': [],
  'pass start': [
    pass,
    { column: 'pass kind', label: 'Kind of pass', choices: passKinds },
    { column: 'place', label: 'Side', choices: ['A', 'B'] },
    { column: 'welder', label: 'Welder', optional: true },
  ],
  'pass end': [
    pass,
    { column: 'volts', label: 'Volts', optional: true },
    { column: 'amperes', label: 'Amperes', optional: true },
    { column: 'speed mm/s', label: 'Travel speed, mm/s', optional: true },
  ],
  'contact reading': [
    { column: 'celsius', label: 'Reading, °C' },
    { column: 'instrument', label: 'Instrument' },
    { column: 'place', label: 'Where: part/side/face/mm, as in plate-1/A/front/10' },
    { column: 'use', label: 'For', choices: ['interpass', 'zone', 'opposite face'] },
  ],
  'break begun': [words('Why')],
  'break ended': [],
  'break inspected': [method, noIndication],
  'check answered': [
    item,
    { column: 'result', label: 'Answer', choices: ['in order', 'not in order', 'not applicable'] },
    { ...words('Remark'), optional: true },
  ],
  'point released': [item, { ...words('Remark'), optional: true }],
  'point waived': [item, words('Why')],
  'point refused': [item, words('Why, and what has to be done')],
  'welding complete': [],
  'post-heating begun': [],
  'post-heating ended': [],
  'cover on': [],
  'cover off': [],
  'heat treatment begun': [],
  'testing begun': [method],
  'spot examined': [{ column: 'probe', label: 'Probe' }, method, noIndication],
  note: [words('Note')],
  close: [{ ...words('Closing words'), optional: true }],
};

export const actKinds = Object.keys(actFields);
export const actRoles = ['', ...roles] as const;

/** What a row of such a kind begins with: the first of each choice. */
export const freshRow = (kind: string, { who = '', role = '' }: ActRow): ActRow => ({
  kind,
  who,
  role,
  ...Object.fromEntries(
    (actFields[kind] ?? []).flatMap(({ column, choices }) => (choices ? [[column, choices[0]!]] : [])),
  ),
});

/** What is still to be typed. */
export const missingIn = (row: ActRow): readonly string[] => {
  const filled = (column: ActColumn): boolean => (row[column] ?? '').trim() !== '';
  return [
    ...(filled('time') ? [] : ['when']),
    ...(filled('who') ? [] : ['who']),
    ...(actFields[row.kind ?? ''] ?? []).flatMap(({ column, label, optional }) =>
      optional === true || filled(column) ? [] : [label],
    ),
  ];
};

export const actsText = (rows: readonly ActRow[]): string => {
  const used = columns.filter(
    (column) => ['time', 'kind', 'place', 'who'].includes(column) || rows.some((row) => (row[column] ?? '') !== ''),
  );
  return [used.join(','), ...rows.map((row) => used.map((column) => quoted(row[column] ?? '')).join(','))].join('\n');
};

const quoted = (text: string): string => `"${text.replaceAll('"', '""')}"`;

export const actLine = (row: ActRow): string => {
  const more = (actFields[row.kind ?? ''] ?? []).map(({ column }) => row[column] ?? '').filter((each) => each !== '');
  const who = row.role ? `${row.who}, ${row.role}` : row.who;
  return `${row.time}: ${row.kind}${more.length === 0 ? '' : ` (${more.join(', ')})`}, ${who}`;
};
