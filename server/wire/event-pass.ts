/** Lines of an events file on passes: start, end, and details that were written down later. */
import { readNumber } from '../measure/number-text.ts';
import type { EventAct } from './event-act.ts';
import { type EventFields, text } from './event-fields.ts';

/** Columns of a pass beside its name, kind and welder, each with the field that it fills. */
const setUp = { layer: 'layer', process: 'process', batch: 'batch' } as const;
const setUpNumbers = { 'revolution s': 'revolutionSeconds' } as const;
const run = {
  volts: 'volts',
  amperes: 'amperes',
  'speed mm/s': 'millimetresPerSecond',
  'length mm': 'runOutMillimetres',
  'arc s': 'arcSeconds',
  'energy j': 'instantaneousJoules',
} as const;

const stops = { stops: 'stops' } as const;

export const setUpColumns = [...Object.keys(setUp), ...Object.keys(setUpNumbers)];
/** Each column with the field of the act that it fills, for problems. */
export const passColumnByField: Readonly<Record<string, string>> = Object.fromEntries(
  Object.entries({ ...setUp, ...setUpNumbers, ...run, ...stops }).map(([column, field]) => [field, column]),
);
export const runColumns = [...Object.keys(run), 'stops'];

export const passStart = (fields: EventFields, running: readonly string[]): EventAct => {
  const pass = text(fields, 'pass');
  if (pass === undefined) return { column: 'pass', problem: 'a pass start needs the name of the pass' };
  if (running.includes(pass)) return { column: 'pass', problem: `pass ${pass} is already running` };
  if (text(fields, 'pass kind') === undefined) {
    return { column: 'pass kind', problem: 'a pass start needs its pass kind, as in root, fill, cap' };
  }
  const welder = text(fields, 'welder') ?? text(fields, 'who');
  return withNumbers(fields, setUpNumbers, {
    kind: 'pass start',
    pass,
    passKind: text(fields, 'pass kind')?.toLowerCase(),
    ...(welder === undefined ? {} : { welder }),
    ...sideOf(text(fields, 'place') ?? ''),
    ...words(fields, setUp),
  });
};

export const passEnd = (fields: EventFields, running: readonly string[]): EventAct => {
  const pass = text(fields, 'pass') ?? (running.length === 1 ? running[0] : undefined);
  if (pass === undefined) {
    const which = running.length === 0 ? 'no pass is running' : `passes ${running.join(', ')} are running`;
    return { column: 'pass', problem: `name the pass that ends: ${which}` };
  }
  return running.includes(pass)
    ? withNumbers(fields, run, { kind: 'pass end', pass, ...words(fields, stops) })
    : { column: 'pass', problem: `pass ${pass} is not running at this time` };
};

export const passDetails = (fields: EventFields): EventAct => {
  const pass = text(fields, 'pass');
  if (pass === undefined) return { column: 'pass', problem: 'name the pass that the details are of' };
  const place = sideOf(text(fields, 'place') ?? '');
  const told = { kind: 'pass details', pass, ...place, ...words(fields, { ...setUp, ...stops }) };
  return withNumbers(fields, { ...setUpNumbers, ...run }, told);
};

function withNumbers(fields: EventFields, columns: Readonly<Record<string, string>>, act: object): EventAct {
  const numbers: Record<string, number> = {};
  for (const [column, field] of Object.entries(columns)) {
    const found = text(fields, column);
    if (found === undefined) continue;
    const read = readNumber(found);
    if (read.kind !== 'number') return { column, problem: `"${found}" is not a number` };
    numbers[field] = read.value;
  }
  return { act: { ...act, ...numbers } };
}

const words = (fields: EventFields, columns: Readonly<Record<string, string>>): Record<string, string> =>
  Object.fromEntries(
    Object.entries(columns).flatMap(([column, field]) => {
      const found = text(fields, column);
      return found === undefined ? [] : [[field, found]];
    }),
  );

/** "A", "A, north end", "side B", "north end". */
const sideOf = (place: string): { readonly side?: string; readonly where?: string } => {
  const found = /^(?:side )?([AB])(?:\s*[,;]\s*(.*))?$/i.exec(place);
  if (found === null) return place === '' ? {} : { where: place };
  const where = found[2]?.trim();
  return { side: found[1]!.toUpperCase(), ...(where === undefined || where === '' ? {} : { where }) };
};
