/**
 * What a revision of a procedure states, line by line, and what another one changes. Lines are made from the fields
 * themselves: a field that is added to the procedure is shown without a word here; a better name for it may be given.
 */
import { type MilliCelsius, type Millikelvin, milliCelsius, millikelvin } from '../measure/quantity.ts';
import type { UnitSystem } from '../measure/units.ts';
import type { Check, Point } from '../weld/checks.ts';
import type { ProcedureRevision } from '../weld/procedure-revision.ts';
import { pointText } from './checks.ts';
import { heatInputFigureText } from './length.ts';
import { begun } from './list.ts';
import { differenceLimitText, limitText } from './temperature.ts';

export interface StatedLine {
  /** Path of the field, as in "procedure.preheatMinimumCelsius". */
  readonly field: string;
  readonly name: string;
  readonly text: string;
}
export interface ChangedLine {
  readonly field: string;
  readonly name: string;
  /** Absent where it was not stated, or is not stated any more. */
  readonly before?: string;
  readonly after?: string;
}

/** "P-12, revision B". */
export const revisionText = ({ procedure: { id, revision } }: Pick<ProcedureRevision, 'procedure'>): string =>
  `${id}, revision ${revision}`;

/** Without what names the revision itself. */
export const statedLines = (revision: ProcedureRevision, units: UnitSystem): readonly StatedLine[] =>
  leaves('', revision, units)
    .filter(({ field }) => !naming.has(field))
    .sort((a, b) => placeOf(a.field) - placeOf(b.field));

/** In the order of the form, since the record keeps none; what has no place there comes last. */
const placeOf = (field: string): number => {
  const place = order.indexOf(field);
  return place < 0 ? order.length : place;
};

export function changedLines(
  before: ProcedureRevision,
  after: ProcedureRevision,
  units: UnitSystem,
): readonly ChangedLine[] {
  const old = new Map(statedLines(before, units).map((line) => [line.field, line]));
  const now = new Map(statedLines(after, units).map((line) => [line.field, line]));
  const fields = [...new Set([...old.keys(), ...now.keys()])];
  return fields.flatMap((field) => {
    const [was, is] = [old.get(field), now.get(field)];
    if (was?.text === is?.text) return [];
    const { name } = (is ?? was)!;
    return [
      {
        field,
        name,
        ...(was === undefined ? {} : { before: was.text }),
        ...(is === undefined ? {} : { after: is.text }),
      },
    ];
  });
}

/** "112.5 °C, before: not stated": both sides of one change. */
export const changeText = ({ before, after }: ChangedLine): string =>
  `${before ?? 'not stated'} → ${after ?? 'not stated any more'}`;

const naming: ReadonlySet<string> = new Set(['format', 'procedure.id', 'procedure.revision']);

function leaves(path: string, value: unknown, units: UnitSystem): StatedLine[] {
  if (value === undefined) return [];
  if (typeof value === 'object' && value !== null && !Array.isArray(value))
    return Object.entries(value).flatMap(([key, inner]) => leaves(path === '' ? key : `${path}.${key}`, inner, units));
  if (Array.isArray(value) && value.some((each) => typeof each === 'object'))
    return value.map((each, index) => memberOf(path, each as object, index));
  return [{ field: path, name: nameOf(path), text: textOf(path, value, units) }];
}

function textOf(path: string, value: unknown, units: UnitSystem): string {
  if (Array.isArray(value)) return value.length === 0 ? 'nothing' : value.join(', ');
  if (typeof value !== 'number') return path.endsWith('document') ? String(value).slice(0, 16) : String(value);
  const last = path.split('.').at(-1)!;
  const is = (ending: string): boolean => last.toLowerCase().endsWith(ending);
  if (is('kelvinperhour')) return `${differenceLimitText(millikelvin(value) as Millikelvin, units)} an hour`;
  if (is('celsius')) return limitText(milliCelsius(value) as MilliCelsius, units);
  if (is('kelvin')) return differenceLimitText(millikelvin(value) as Millikelvin, units);
  if (is('kilojoulespermillimetre')) return heatInputFigureText(value, units);
  if (is('minutes')) return `${value} min`;
  if (is('hours')) return `${value} h`;
  if (path.startsWith('coolingSeconds')) return `${value} s`;
  return String(value);
}

/** A check and a point by their own ids, so that one that is put in between changes none of the others. */
function memberOf(path: string, member: object, index: number): StatedLine {
  if (path === 'procedure.checks') {
    const { id, text, weight, role } = member as Check;
    const by = role === undefined ? '' : `, answered by the ${role}`;
    return { field: `${path}.${id}`, name: `Check ${id}`, text: `${text}; ${weight}${by}` };
  }
  if (path === 'procedure.points') {
    const point = member as Point;
    const text = begun(pointText(point));
    const what = point.text === undefined ? text : `${point.text}: ${text}`;
    return { field: `${path}.${point.id}`, name: `Point ${point.id}`, text: what };
  }
  return { field: `${path}.${index}`, name: `${nameOf(path)} ${index + 1}`, text: memberText(member) };
}

/** "text: dry and clean, weight: blocks": a member of a list that has no words of its own. */
const memberText = (member: object): string =>
  Object.entries(member)
    .map(([field, value]) => `${inWords(field)}: ${Array.isArray(value) ? value.join(', ') : String(value)}`)
    .join('; ');

function nameOf(path: string): string {
  const known = names[path];
  if (known !== undefined) return known;
  const [first, ...rest] = path.replace(/^procedure\./, '').split('.');
  return begun([first!, ...rest].map(inWords).join(', '));
}

const inWords = (field: string): string =>
  field
    .replace(/(KelvinPerHour|KilojoulesPerMillimetre|Celsius|Kelvin|Minutes|Hours|Seconds)$/, '')
    .replace(/([a-z])([A-Z])/g, '$1 $2')
    .toLowerCase();

/** As the form calls them, where that differs from the name of the field. */
const names: Readonly<Record<string, string>> = {
  'procedure.title': 'What it is for',
  'procedure.codeEdition': 'Written to',
  codeSet: 'Code',
  'procedure.preheatMinimumCelsius': 'Minimum preheat',
  'procedure.interpassMaximumCelsius': 'Maximum interpass',
  'procedure.maintenanceMinimumCelsius': 'Lowest in a break',
  'procedure.highestCelsius': 'Highest anywhere',
  'procedure.evennessMaximumKelvin': 'Spread, at most',
  'procedure.soakHoldMinutes': 'Hold before the arc',
  'procedure.throughThicknessHoldMinutes': 'Hold all through the thickness',
  'procedure.zonePlacesRequired': 'Zone places at the minimum',
  'procedure.heatingMaximumKelvinPerHour': 'Heating, at most',
  'procedure.coolingMaximumKelvinPerHour': 'Cooling, at most',
  'procedure.ratesAboveCelsius': 'Rates count from',
  'procedure.coveredToCelsius': 'Covered down to',
  'procedure.coolBeforeHeatTreatmentCelsius': 'Cool to before heat treatment',
  'procedure.heatTreatmentWithinHours': 'Heat treatment within',
  'procedure.ambientCelsius': 'The wait counts from',
  'procedure.probeSpots': 'Spots of probes',
  'procedure.decisionRule': 'Decision rule',
  'procedure.guardFactor': 'Guard band, standard uncertainties',
  'procedure.calibration': 'Calibration',
  'procedure.twinReadingHours': 'Reading by hand beside a probe, every',
  'procedure.ambientCheck': 'Check of the probes at ambient',
  'procedure.qualification.record': 'Qualification record',
  'procedure.qualification.standard': 'Qualified by',
  'procedure.qualification.preheatCelsius': 'Test piece, preheat',
  'procedure.qualification.interpassCelsius': 'Test piece, highest interpass',
  'procedure.qualification.maintenanceCelsius': 'Test piece, kept until heat treatment at',
  'procedure.qualification.postHeating': 'Test piece, post-heating',
  'procedure.qualification.postHeating.celsius': 'Test piece, post-heating at',
  'procedure.qualification.postHeating.hours': 'Test piece, post-heating for',
  'procedure.qualification.heatInput.counted': 'Qualified heat input counts',
  'procedure.qualification.heatInput.minimumKilojoulesPerMillimetre': 'Qualified heat input, least',
  'procedure.qualification.heatInput.maximumKilojoulesPerMillimetre': 'Qualified heat input, most',
  'procedure.qualification.impactTests': 'Impact tests',
  'procedure.qualification.interpassRise': 'Rise of interpass for this material group',
  'coolingSeconds.minimum': 'Cooling time 800 to 500 °C, shortest',
  'coolingSeconds.maximum': 'Cooling time 800 to 500 °C, longest',
  waitingEdition: 'Wait before testing by',
  'postHeating.celsius': 'Post-heating at',
  'postHeating.hours': 'Post-heating for',
  'postHeating.maximumCelsius': 'Post-heating, at most',
  'postHeating.counted': 'Post-heating counts',
};

const order: readonly string[] = Object.keys(names);
