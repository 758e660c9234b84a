/** What stands in the forms of a pass, and the acts that they make. Numbers of an earlier pass come in only when asked for. */
import { readNumber } from '../../../server/measure/number-text.ts';
import type { UnitSystem } from '../../../server/measure/units.ts';
import type { Act } from '../../../server/weld/entry.ts';
import { type PassDetails, type PassKind, passDetailsSchema } from '../../../server/weld/pass-acts.ts';
import { processes } from '../../../server/weld/welding.ts';
import type { LiveJoint } from '../../feed/live-joint.ts';
import { quantityText, readQuantity } from '../new-joint/quantity.ts';
import type { Draft } from './act-draft.ts';

type PassStatus = LiveJoint['assessment']['passes'][number];

export interface Readers {
  readonly text: (field: string, ask: string) => string;
  readonly problem: (field: string, ask: string) => void;
}

/** Fields of the forms with the field of the act; numbers in the unit that is shown. */
const words = { layer: 'layer', batch: 'batch', stops: 'stops', where: 'where' } as const;
const plain = {
  revolution: 'revolutionSeconds',
  volts: 'volts',
  amperes: 'amperes',
  arcSeconds: 'arcSeconds',
  joules: 'instantaneousJoules',
} as const;
const measured = { speed: ['millimetresPerSecond', 'speed'], length: ['runOutMillimetres', 'length'] } as const;

export const noDetails: Draft = {
  layer: '',
  batch: '',
  process: '',
  revolution: '',
  side: '',
  where: '',
  volts: '',
  amperes: '',
  travel: 'speed',
  speed: '',
  length: '',
  arcSeconds: '',
  joules: '',
  stops: '',
};

export const freshPassStart = ({ assessment }: LiveJoint, by: string): Draft => {
  const last = assessment.passes.at(-1);
  return {
    ...noDetails,
    pass: nextPass(assessment.passes.map(({ pass }) => pass)),
    passKind: last === undefined ? 'root' : last.passKind === 'root' ? 'fill' : last.passKind,
    welder: last?.welder ?? by,
    side: last?.details.side ?? '',
    ago: '',
  };
};

export const freshPassEnd = ({ assessment }: LiveJoint): Draft => ({
  ...noDetails,
  pass: assessment.passes.find(({ endedAt }) => endedAt === undefined)?.pass ?? '',
  ago: '',
});

export const passStartOf = (draft: Draft, units: UnitSystem, read: Readers, ago: { happenedAt?: number }): Act => {
  const { volts: _volts, ...details } = detailsIn(draft, units, read);
  return {
    kind: 'pass start',
    pass: read.text('pass', 'A name or number for this pass is needed.'),
    passKind: draft.passKind as PassKind,
    welder: read.text('welder', 'Who welds? A name is needed.'),
    ...details,
    ...ago,
  };
};

export const passEndOf = (draft: Draft, units: UnitSystem, read: Readers, ago: { happenedAt?: number }): Act => {
  const {
    side: _side,
    where: _where,
    layer: _layer,
    batch: _batch,
    process: _process,
    revolutionSeconds: _revolution,
    ...run
  } = detailsIn(draft, units, read);
  return { kind: 'pass end', pass: read.text('pass', 'Choose the pass that ended.'), ...run, ...ago };
};

export const passDetailsOf = (draft: Draft, units: UnitSystem, read: Readers): Act => {
  const details = detailsIn(draft, units, read);
  if (Object.keys(details).length === 0) read.problem('volts', 'Enter at least one of these.');
  return { kind: 'pass details', pass: draft.pass ?? '', ...details };
};

/** What the form states, in the units of the record. */
export function detailsIn(draft: Draft, units: UnitSystem, { problem }: Pick<Readers, 'problem'>): PassDetails {
  const details: Record<string, string | number> = {};
  const take = (field: string, name: string, read: ReturnType<typeof readNumber>): void => {
    if (read.kind === 'none') return;
    if (read.kind === 'not a number') problem(field, `"${draft[field]}" is not a number.`);
    else if (read.value <= 0) problem(field, 'More than zero.');
    else details[name] = read.value;
  };
  for (const [field, name] of Object.entries(words)) {
    const said = (draft[field] ?? '').trim();
    if (said !== '') details[name] = said;
  }
  if (draft.side === 'A' || draft.side === 'B') details.side = draft.side;
  const ownProcess = processes.find((each) => each === draft.process);
  if (ownProcess !== undefined) details.process = ownProcess;
  for (const [field, name] of Object.entries(plain))
    if (field !== 'arcSeconds' || draft.travel === 'length') take(field, name, readNumber(draft[field] ?? ''));
  for (const [field, [name, kind]] of Object.entries(measured))
    if (field === 'length' ? draft.travel === 'length' : draft.travel !== 'length')
      take(field, name, readQuantity(draft[field] ?? '', kind, units));
  const found = passDetailsSchema.safeParse({ kind: 'pass details', pass: '1', ...details });
  if (!found.success && Object.keys(details).length > 0)
    for (const { path } of found.error.issues)
      problem(fieldOf(String(path[0] ?? '')), 'Outside what can be; see the unit.');
  return details as PassDetails;
}

const fieldOf = (name: string): string =>
  Object.entries({ ...plain, speed: 'millimetresPerSecond', length: 'runOutMillimetres' }).find(
    ([, each]) => each === name,
  )?.[0] ?? name;

/** The problem of an act as the station tells it, to the entry of the form. */
export const passFormField = fieldOf;

/** The details of a pass as the form would hold them. */
export const draftOfDetails = (details: PassDetails, units: UnitSystem): Draft => ({
  ...Object.fromEntries(
    Object.entries({ ...words, ...plain, side: 'side', process: 'process' }).flatMap(([field, name]) => {
      const value = details[name as keyof PassDetails];
      return value === undefined ? [] : [[field, String(value)]];
    }),
  ),
  ...Object.fromEntries(
    Object.entries(measured).flatMap(([field, [name, kind]]) => {
      const value = details[name];
      return value === undefined ? [] : [[field, quantityText(value, kind, units)]];
    }),
  ),
  ...(details.runOutMillimetres === undefined ? {} : { travel: 'length' }),
});

/** The newest pass before this one that has any of the fields: whose numbers may be taken over, on request. */
export const passBefore = (
  passes: readonly PassStatus[],
  pass: string | undefined,
  fields: readonly (keyof PassDetails)[],
): { readonly pass: string; readonly details: PassDetails } | undefined => {
  const end = passes.findIndex((each) => each.pass === pass);
  const before = (end < 0 ? passes : passes.slice(0, end)).findLast(({ details }) =>
    fields.some((field) => details[field] !== undefined),
  );
  if (before === undefined) return undefined;
  const details = Object.fromEntries(
    fields.flatMap((field) => (before.details[field] === undefined ? [] : [[field, before.details[field]]])),
  );
  return { pass: before.pass, details };
};

/** The number after the highest one used; "1" at first. */
export const nextPass = (used: readonly string[]): string =>
  String(Math.max(0, ...used.map((pass) => (/^\d+$/.test(pass) ? Number(pass) : 0))) + 1);
