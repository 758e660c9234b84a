/** All passes as CSV, one row a pass, in the order in which they began; those that were struck last. Columns: COLUMNS.md. */
import type { Assessment } from '../judgement/assessment.ts';
import type { PassStatus, StruckPass } from '../judgement/pass-status.ts';
import type { Instant, MilliCelsius } from '../measure/quantity.ts';
import type { Joint } from '../weld/joint.ts';
import type { HeatWindow } from '../weld/welding.ts';
import { localStamp } from '../wording/time.ts';
import { conditionName } from '../wording/words.ts';
import { decimal, type Origin, originCells, originColumns, text, utc, words } from './csv-text.ts';

type Cell = string | number | undefined;
interface Of {
  readonly joint: Joint;
  readonly zone: string;
}

/** Name with its unit, and what stands in it. */
const columns: readonly (readonly [name: string, cell: (pass: PassStatus, of: Of) => Cell])[] = [
  ['pass', ({ pass }) => pass],
  ['kind', ({ passKind }) => passKind],
  ['struck', () => 'no'],
  ['welder', ({ welder }) => welder],
  ['began_utc', ({ startedAt }) => utc(startedAt)],
  ['began_local', ({ startedAt }, { zone }) => localStamp(startedAt, zone)],
  ['ended_utc', ({ endedAt }) => endedAt && utc(endedAt)],
  ['ended_local', ({ endedAt }, { zone }) => endedAt && localStamp(endedAt, zone)],
  ['entered_utc', ({ enteredAt }) => utc(enteredAt)],
  ['layer', ({ details }) => details.layer],
  ['side', ({ details }) => details.side],
  ['place', ({ details }) => details.where],
  ['process_iso4063', ({ details }, { joint }) => details.process ?? joint.process],
  ['consumable_batch', ({ details }) => details.batch],
  ['voltage_volt', ({ details }) => details.volts],
  ['current_ampere', ({ details }) => details.amperes],
  ['travel_mm_per_second', ({ details }) => details.millimetresPerSecond],
  ['run_out_mm', ({ details }) => details.runOutMillimetres],
  ['arc_time_second', ({ details }) => details.arcSeconds],
  ['energy_shown_joule', ({ details }) => details.instantaneousJoules],
  ['revolution_second', ({ details }) => details.revolutionSeconds],
  ['stops', ({ details }) => details.stops],
  ['energy_counted', ({ heat }) => heat.counted],
  ['energy_kilojoule_per_mm', ({ heat }) => (heat.energy === undefined ? undefined : decimal(heat.energy, 6))],
  ['energy_least_kilojoule_per_mm', (_, { joint }) => windowOf(joint)?.minimumKilojoulesPerMillimetre],
  ['energy_most_kilojoule_per_mm', (_, { joint }) => windowOf(joint)?.maximumKilojoulesPerMillimetre],
  ['energy_judged', ({ heat }) => heat.state],
  ['energy_worked_out', ({ heat }) => heat.words],
  ['coldest_at_start_celsius', ({ coldestAtStart }) => celsius(coldestAtStart)],
  ['coldest_at_start_probe', ({ coldestAtStart }) => coldestAtStart?.probe],
  ['coldest_during_celsius', ({ coldestDuring }) => celsius(coldestDuring)],
  ['coldest_during_probe', ({ coldestDuring }) => coldestDuring?.probe],
  ['interpass_celsius', ({ interpass }) => celsius(interpass)],
  ['interpass_probe', ({ interpass }) => interpass?.probe],
  ['interpass_read_by', ({ interpass }) => interpass?.by],
  ['hottest_during_celsius', ({ hottestDuring }) => celsius(hottestDuring)],
  ['hottest_during_probe', ({ hottestDuring }) => hottestDuring?.probe],
  ['minimum_judged', ({ minimum }) => minimum],
  ['maximum_judged', ({ maximum }) => maximum],
  ['began_outside', ({ outside }) => outside.map((each) => conditionName(each).toLowerCase()).join(', ')],
  ['corrections', ({ corrections }) => corrections?.length ?? 0],
];
const ownColumns = columns.map(([name]) => name);
export const passColumns = [...originColumns, ...ownColumns];

export function passesCsv({ passes, struckPasses = [] }: Assessment, joint: Joint, origin: Origin): string {
  const of = { joint, zone: origin.zone };
  const first = originCells(origin);
  const rows = inOrder(passes).map((pass) => columns.map(([, cell]) => cellText(cell(pass, of))));
  const struck = inOrder(struckPasses).map((pass) => struckRow(pass, of));
  return text([passColumns, ...[...rows, ...struck].map((row) => [...first, ...row])]);
}

/** What it was entered as; nothing was judged by it. */
function struckRow(struck: StruckPass, { zone }: Of): string[] {
  const { pass, passKind, welder, startedAt, endedAt, enteredAt, corrections } = struck;
  const known: Readonly<Record<string, Cell>> = {
    pass,
    kind: passKind,
    struck: 'yes',
    welder,
    began_utc: utc(startedAt),
    began_local: localStamp(startedAt, zone),
    ended_utc: endedAt && utc(endedAt),
    ended_local: endedAt && localStamp(endedAt, zone),
    entered_utc: utc(enteredAt),
    corrections: corrections.length,
  };
  return ownColumns.map((name) => cellText(known[name]));
}

const windowOf = ({ procedure }: Joint): HeatWindow | undefined => procedure?.heatInput;
const celsius = (read: { readonly temperature: MilliCelsius } | undefined): string | undefined =>
  read === undefined ? undefined : decimal(read.temperature, 3);
const inOrder = <P extends { readonly startedAt: Instant }>(passes: readonly P[]): P[] =>
  passes.toSorted((a, b) => a.startedAt - b.startedAt);
const cellText = (cell: Cell): string => (cell === undefined ? '' : typeof cell === 'number' ? `${cell}` : words(cell));
