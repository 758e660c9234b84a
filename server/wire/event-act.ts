/**
 * One line of an events file to the act that it tells. Only the columns that the kind needs are read; a
 * column that is filled and that the kind has no use for is a problem, because its writer meant something.
 * Whether the values are allowed is said by the schema of acts, not here.
 */
import { readNumber } from '../measure/number-text.ts';
import { type EventFields, text } from './event-fields.ts';
import { calibration, verification } from './event-instrument.ts';
import { passDetails, passEnd, passStart, runColumns, setUpColumns } from './event-pass.ts';

export type EventAct =
  /** Still to be checked by actSchema. */
  { readonly act: object } | { readonly column: string; readonly problem: string };

export const eventKinds = [
  'heat on',
  'heat off',
  'pass start',
  'pass end',
  'pass details',
  'contact reading',
  'break begun',
  'break ended',
  'break inspected',
  'check answered',
  'point released',
  'point waived',
  'point refused',
  'welding complete',
  'post-heating begun',
  'post-heating ended',
  'cover on',
  'cover off',
  'heat treatment begun',
  'testing begun',
  'spot examined',
  'note',
  'accept',
  'calibration',
  'verification',
  'adjustment',
  'close',
] as const;
type EventKind = (typeof eventKinds)[number];

/** The act of a line; `running` names the passes that run at its time. */
export const actOf = (fields: EventFields, running: readonly string[]): EventAct => {
  const kind = (fields.get('kind') ?? '').toLowerCase();
  if (!isKind(kind)) {
    return { column: 'kind', problem: `"${kind}" is not a kind of event; allowed are ${eventKinds.join(', ')}` };
  }
  const unused = [...fields].find(([name, text]) => text !== '' && !always.has(name) && !uses[kind].includes(name));
  if (unused !== undefined) {
    return { column: unused[0], problem: `"${kind}" has no use for ${unused[0]} "${unused[1]}"; leave it empty` };
  }
  return makers[kind](fields, running);
};

const isKind = (text: string): text is EventKind => (eventKinds as readonly string[]).includes(text);

/** `place` may stand beside any kind: where it is not needed it does no harm. */
const always = new Set(['time', 'kind', 'place', 'who', 'role', '']);

const uses: Readonly<Record<EventKind, readonly string[]>> = {
  'heat on': [],
  'heat off': [],
  'pass start': ['pass', 'pass kind', 'welder', ...setUpColumns],
  'pass end': ['pass', ...runColumns],
  'pass details': ['pass', ...setUpColumns, ...runColumns],
  'contact reading': ['celsius', 'instrument', 'instrument kind', 'shows', 'emissivity', 'probe', 'use'],
  'break begun': ['text'],
  'break ended': [],
  'break inspected': ['method', 'text'],
  'check answered': ['item', 'result', 'text'],
  'point released': ['item', 'text'],
  'point waived': ['item', 'text'],
  'point refused': ['item', 'text'],
  'welding complete': [],
  'post-heating begun': [],
  'post-heating ended': [],
  'cover on': [],
  'cover off': [],
  'heat treatment begun': [],
  'testing begun': ['method'],
  'spot examined': ['probe', 'method', 'text'],
  note: ['text'],
  accept: ['subject', 'method', 'text'],
  calibration: ['instrument', 'certificate', 'calibrated on', 'due on', 'corrections'],
  verification: ['instrument', 'celsius', 'reference', 'reference celsius', 'result'],
  adjustment: ['instrument', 'text'],
  close: ['text'],
};

export const eventColumns: readonly string[] = [
  'time',
  'kind',
  'place',
  'who',
  'role',
  ...new Set(Object.values(uses).flat()),
];

type Maker = (fields: EventFields, running: readonly string[]) => EventAct;

const contactReading: Maker = (fields) => {
  const celsius = readNumber(fields.get('celsius') ?? '');
  if (celsius.kind !== 'number') {
    return { column: 'celsius', problem: `"${fields.get('celsius') ?? ''}" is not a temperature in degrees Celsius` };
  }
  const instrument = text(fields, 'instrument');
  if (instrument === undefined) return { column: 'instrument', problem: 'a contact reading needs its instrument' };
  const place = placeOf(text(fields, 'place') ?? '');
  if (place === undefined) {
    return {
      column: 'place',
      problem: `"${fields.get('place') ?? ''}" is not a place; write part/side/face/mm from the groove, as in plate-1/A/front/10`,
    };
  }
  const emissivity = text(fields, 'emissivity');
  const set = readNumber(emissivity ?? '');
  if (emissivity !== undefined && set.kind !== 'number')
    return { column: 'emissivity', problem: `"${emissivity}" is not an emissivity, as in 0.85` };
  const shows = text(fields, 'shows')?.toLowerCase();
  const kind = text(fields, 'instrument kind')?.toLowerCase();
  const probe = text(fields, 'probe');
  return {
    act: {
      kind: 'contact reading',
      celsius: celsius.value,
      instrument,
      ...(kind === undefined ? {} : { instrumentKind: kind }),
      ...(shows === undefined ? {} : { shows }),
      ...(set.kind === 'number' ? { emissivity: set.value } : {}),
      ...(probe === undefined ? {} : { probe }),
      use: text(fields, 'use')?.toLowerCase() ?? 'interpass',
      place,
    },
  };
};

/** A check or a point by its id in the procedure, with the words of the line. */
const itemOf = (fields: EventFields, name: 'check' | 'point', words: string, more: object = {}): EventAct => {
  const item = text(fields, 'item');
  if (item === undefined) return { column: 'item', problem: `name the ${name} as the procedure does` };
  const said = text(fields, 'text');
  const kind = (fields.get('kind') ?? '').toLowerCase();
  return { act: { kind, [name]: item, ...more, ...(said === undefined ? {} : { [words]: said }) } };
};

const makers: Readonly<Record<EventKind, Maker>> = {
  'heat on': () => ({ act: { kind: 'heat', state: 'on' } }),
  'heat off': () => ({ act: { kind: 'heat', state: 'off' } }),
  'pass start': passStart,
  'pass end': passEnd,
  'pass details': passDetails,
  'contact reading': contactReading,
  'break begun': (fields) => {
    const reason = text(fields, 'text');
    return reason === undefined
      ? { column: 'text', problem: 'say why welding is interrupted' }
      : { act: { kind: 'break', state: 'begun', reason } };
  },
  'break ended': () => ({ act: { kind: 'break', state: 'ended' } }),
  'break inspected': (fields) => {
    const method = text(fields, 'method');
    if (method === undefined) return { column: 'method', problem: 'say how it was examined: VT, MT, PT, UT or ET' };
    return {
      act: { kind: 'break inspected', method: method.toUpperCase(), result: text(fields, 'text')?.toLowerCase() },
    };
  },
  'check answered': (fields) => itemOf(fields, 'check', 'note', { answer: text(fields, 'result')?.toLowerCase() }),
  'point released': (fields) => itemOf(fields, 'point', 'note'),
  'point waived': (fields) => itemOf(fields, 'point', 'reason'),
  'point refused': (fields) => itemOf(fields, 'point', 'reason'),
  'welding complete': () => ({ act: { kind: 'welding complete' } }),
  'post-heating begun': () => ({ act: { kind: 'post-heating', state: 'begun' } }),
  'post-heating ended': () => ({ act: { kind: 'post-heating', state: 'ended' } }),
  'cover on': () => ({ act: { kind: 'cover', state: 'on' } }),
  'cover off': () => ({ act: { kind: 'cover', state: 'off' } }),
  'heat treatment begun': () => ({ act: { kind: 'heat treatment begun' } }),
  'testing begun': (fields) => {
    const method = text(fields, 'method');
    return method === undefined
      ? { column: 'method', problem: 'say by which method was tested, as in MT or UT' }
      : { act: { kind: 'testing begun', method } };
  },
  'spot examined': (fields) => {
    const probe = text(fields, 'probe');
    if (probe === undefined) return { column: 'probe', problem: 'name the probe whose spot was examined' };
    const method = text(fields, 'method');
    if (method === undefined) return { column: 'method', problem: 'say how it was examined: VT, MT, PT, UT or ET' };
    const result = text(fields, 'text')?.toLowerCase();
    if (result !== 'no indication' && result !== 'indication')
      return { column: 'text', problem: 'say what was found: no indication, or indication' };
    return { act: { kind: 'spot examined', probe, method: method.toUpperCase(), result } };
  },
  note: (fields) => ({ act: { kind: 'note', text: fields.get('text') ?? '' } }),
  accept: (fields) => {
    const subject = text(fields, 'subject');
    if (subject === undefined) {
      return { column: 'subject', problem: 'say what is accepted: extended range, or procedure below calculation' };
    }
    const method = text(fields, 'method');
    const reason = fields.get('text') ?? '';
    return {
      act: { kind: 'accept', subject: subject.toLowerCase(), ...(method === undefined ? {} : { method }), reason },
    };
  },
  calibration,
  verification,
  adjustment: (fields) => ({
    act: { kind: 'adjustment', instrument: fields.get('instrument') ?? '', what: fields.get('text') ?? '' },
  }),
  close: (fields) => {
    const statement = text(fields, 'text');
    return { act: { kind: 'close', ...(statement === undefined ? {} : { statement }) } };
  },
};

/** "plate-1/A/front/10" or "pipe/B/back/0/6". */
const placeOf = (place: string): object | undefined => {
  const [part, side, face, distance, clock, ...rest] = place.split('/').map((piece) => piece.trim());
  if (part === undefined || side === undefined || face === undefined || distance === undefined || rest.length > 0) {
    return undefined;
  }
  const millimetres = readNumber(distance.replace(/\s*mm$/i, ''));
  const hour = clock === undefined ? undefined : readNumber(clock);
  if (millimetres.kind !== 'number' || (hour !== undefined && hour.kind !== 'number')) return undefined;
  return {
    part,
    side: side.toUpperCase(),
    face: face.toLowerCase(),
    distanceMillimetres: millimetres.value,
    ...(hour === undefined ? {} : { clock: hour.value }),
  };
};
