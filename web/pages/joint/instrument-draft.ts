/** From the text of the sheets of the register to acts: calibration, verification, adjustment, and an instrument entered or changed. */
import { readNumber } from '../../../server/measure/number-text.ts';
import type { Instant } from '../../../server/measure/quantity.ts';
import { fromFahrenheit, type UnitSystem, unitsOf } from '../../../server/measure/units.ts';
import { type Act, actSchema } from '../../../server/weld/entry.ts';
import { type Instrument, instrumentSchema } from '../../../server/weld/instrument.ts';
import { type Joint, jointSchema } from '../../../server/weld/joint.ts';
import { problems } from '../../../server/weld/problems.ts';
import type { Draft, InstrumentSheetKind, Made } from './act-draft.ts';

/** Points of a calibration that the form has room for; a longer certificate is entered over HTTP or from a file. */
export const pointsMost = 8;

export function instrumentActOf(kind: InstrumentSheetKind, draft: Draft, joint: Joint, now: Instant): Made {
  if (kind === 'instrument') return revision(draft, joint);
  const units = unitsOf(joint);
  const act: unknown =
    kind === 'calibration'
      ? calibration(draft, units, now)
      : kind === 'verification'
        ? {
            kind,
            instrument: draft.instrument,
            reference: text(draft.reference),
            readCelsius: celsius(draft.readCelsius, units),
            referenceCelsius: celsius(draft.referenceCelsius, units),
            result: draft.result,
          }
        : { kind, instrument: draft.instrument, what: text(draft.what) };
  const read = actSchema.safeParse(act);
  if (read.success) return { ok: true, act: read.data };
  return { ok: false, problems: byField(problems(read.error, act, actSchema)) };
}

/** How the form of an instrument begins: as it is now, with what was entered of it since. */
export const instrumentDraft = (instrument: Instrument | undefined): Draft => {
  const shown = (value: unknown): string => (value === undefined ? '' : String(value));
  const { channels, ...rest } = instrument ?? ({ kind: 'contact thermometer' } as Partial<Instrument>);
  return {
    ...Object.fromEntries(instrumentFields.map((field) => [field, shown((rest as Record<string, unknown>)[field])])),
    channels: channels?.join(', ') ?? '',
    // Not shown: points that a calibration found stay with the instrument.
    corrections: rest.corrections === undefined ? '' : JSON.stringify(rest.corrections),
    reason: instrument === undefined ? 'entered in the register' : '',
  };
};

const instrumentFields = [
  'id',
  'kind',
  'board',
  'thermocouple',
  'toleranceClass',
  'maximumErrorKelvin',
  'coldJunctionErrorKelvin',
  'certificate',
  'calibratedOn',
  'dueOn',
] as const;

function calibration(draft: Draft, units: UnitSystem, now: Instant): object {
  const corrections = Array.from({ length: pointsMost }, (_, index) => index)
    .filter((index) => text(draft[`at${index}`]) !== undefined)
    .map((index) => ({
      atCelsius: celsius(draft[`at${index}`], units),
      correctionKelvin: number(draft[`correction${index}`]),
      expandedKelvin: number(draft[`expanded${index}`]),
      coverageFactor: number(draft[`factor${index}`] ?? '2'),
    }));
  const openedAt = Number(draft.openedAt);
  const holdsFrom = draft.holds === 'beginning' && Number.isFinite(openedAt) ? { happenedAt: openedAt } : {};
  return {
    kind: 'calibration',
    instrument: draft.instrument,
    certificate: text(draft.certificate),
    calibratedOn: text(draft.calibratedOn),
    ...(text(draft.dueOn) === undefined ? {} : { dueOn: text(draft.dueOn) }),
    ...(corrections.length === 0 ? {} : { corrections }),
    ...(holdsFrom.happenedAt === undefined || holdsFrom.happenedAt > now ? {} : holdsFrom),
  };
}

/** The joint with the instrument put in, or in its place. */
function revision(draft: Draft, joint: Joint): Made {
  const numbers = ['maximumErrorKelvin', 'coldJunctionErrorKelvin'];
  const before = (joint.instruments ?? []).find(({ id }) => id === draft.before);
  const entered = Object.fromEntries(
    instrumentFields.flatMap((field): [string, unknown][] => {
      const value = numbers.includes(field) ? number(draft[field]) : text(draft[field]);
      return value === undefined ? [] : [[field, value]];
    }),
  );
  const channels = (draft.channels ?? '').split(/[\s,;]+/).filter((each) => each !== '');
  const instrument = {
    ...entered,
    ...(channels.length === 0 ? {} : { channels: channels.map(Number) }),
    ...((draft.corrections ?? '') === '' ? {} : { corrections: JSON.parse(draft.corrections!) as unknown }),
  };
  const alone = instrumentSchema.safeParse(instrument);
  if (!alone.success) return { ok: false, problems: byField(problems(alone.error, instrument, instrumentSchema)) };
  const others = joint.instruments ?? [];
  const instruments =
    before === undefined ? [...others, alone.data] : others.map((each) => (each === before ? alone.data : each));
  const whole = jointSchema.safeParse({ ...joint, instruments });
  if (!whole.success) return { ok: false, problems: byField(problems(whole.error, joint, jointSchema)) };
  const reason = text(draft.reason);
  return reason === undefined
    ? { ok: false, problems: { reason: 'Say why it is entered or changed.' } }
    : { ok: true, act: { kind: 'revise', joint: whole.data, reason } satisfies Act };
}

/** "act.corrections.0.expandedKelvin" is the first point's field; any other its last word. */
const byField = (found: ReturnType<typeof problems>): Readonly<Record<string, string>> =>
  Object.fromEntries(
    found.map(({ field, allowed }) => {
      const point = /corrections\.(\d+)\.(at|correction|expanded|coverage)/.exec(field);
      const name = point === null ? field.split('.').at(-1)! : `${pointFields[point[2]!]}${point[1]}`;
      return [name, `Needed: ${allowed}.`];
    }),
  );
const pointFields: Readonly<Record<string, string>> = {
  at: 'at',
  correction: 'correction',
  expanded: 'expanded',
  coverage: 'factor',
};

const text = (value: string | undefined): string | undefined => {
  const trimmed = (value ?? '').trim();
  return trimmed === '' ? undefined : trimmed;
};

/** Text that is no number goes on as text, so that the schema tells what is wrong with it. */
const number = (value: string | undefined): unknown => {
  const read = readNumber(value ?? '');
  return read.kind === 'number' ? read.value : text(value);
};

const celsius = (value: string | undefined, units: UnitSystem): unknown => {
  const read = number(value);
  return units === 'inch' && typeof read === 'number' ? Math.round(fromFahrenheit(read) * 1000) / 1000 : read;
};
