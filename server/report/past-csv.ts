/** Joints that were found, and counts over them, as CSV. Columns: COLUMNS.md. */

import type { Severity } from '../judgement/assessment.ts';
import type { Instant } from '../measure/quantity.ts';
import type { Card } from '../past/card.ts';
import type { Share } from '../past/share.ts';
import type { Spread } from '../past/spread.ts';
import type { SourceStatistics, Statistics, VerdictCount } from '../past/statistics.ts';
import { localStamp } from '../wording/time.ts';
import { text, utc, words } from './csv-text.ts';

type Cell = string | number | undefined;

const columns: readonly (readonly [name: string, cell: (card: Card, zone: string) => Cell])[] = [
  ['joint', ({ chain }) => chain],
  ['title', ({ title }) => title],
  ['state', ({ open }) => (open ? 'open' : 'closed')],
  ['source', ({ source }) => source.kind],
  ['verdict', ({ verdict }) => verdict],
  ['verdict_is', ({ open }) => (open ? 'so far' : 'recorded')],
  ['opened_utc', ({ openedAt }) => utc(openedAt)],
  ['opened_local', ({ openedAt }, zone) => localStamp(openedAt, zone)],
  ['heat_on_utc', ({ firstHeatAt }) => stamp(firstHeatAt)],
  ['first_arc_utc', ({ firstArcAt }) => stamp(firstArcAt)],
  ['closed_utc', ({ closedAt }) => stamp(closedAt)],
  ['closed_local', ({ closedAt }, zone) => closedAt && localStamp(closedAt, zone)],
  ['procedure', ({ procedure }) => procedure?.id],
  ['procedure_revision', ({ procedure }) => procedure?.revision],
  ['steel', ({ grades }) => grades.join('; ')],
  ['heats', ({ heats }) => heats.join('; ')],
  ['repair_of', ({ repairOf }) => repairOf],
  ['passes', ({ passes }) => passes.length],
  ['welders', ({ people }) => named(people.filter(({ roles }) => roles.includes('welder')))],
  ['people', ({ people }) => named(people)],
  ['breaks_declared', ({ breaks }) => breaks],
  ['holds_lost', ({ holdsLost }) => holdsLost],
  ['nonconformities', (card) => count(card, 'nonconformity')],
  ['not_judged', (card) => count(card, 'not judged')],
  ['remarks', (card) => count(card, 'remark')],
  ['findings', ({ findings }) => [...new Set(findings.map(({ kind }) => kind))].sort().join('; ')],
  ['not_read', ({ notRead }) => notRead],
];
export const foundColumns = columns.map(([name]) => name);

export const foundCsv = (cards: readonly Card[], zone: string): string =>
  text([foundColumns, ...cards.map((card) => columns.map(([, cell]) => cellText(cell(card, zone))))]);

const stamp = (at: Instant | undefined): string | undefined => (at === undefined ? undefined : utc(at));
const named = (people: Card['people']): string => people.map(({ name }) => name).join('; ');
const count = ({ findings }: Card, severity: Severity): number =>
  findings.filter((each) => each.severity === severity).length;
const cellText = (cell: Cell): string => (cell === undefined ? '' : typeof cell === 'number' ? `${cell}` : words(cell));

/** One row a figure: what it is of, its value, and how many it is made of. */
const countColumns = ['source', 'table', 'name', 'figure', 'value', 'of'] as const;

export const statisticsCsv = ({ period, sources }: Statistics): string =>
  text([
    [...countColumns],
    ...sources.flatMap((each) => rowsOf(each, period).map((row) => [each.source, ...row].map(cellText))),
  ]);

type Figure = readonly [table: string, name: string, figure: string, value: Cell, of: Cell];

const rowsOf = (of: SourceStatistics, period: string): Figure[] => [
  ['joints', '', 'joints', of.joints, undefined],
  ['joints', '', 'open', of.open, of.joints],
  ['joints', '', 'not read to the end', of.notRead, of.joints],
  ...verdictRows('verdict', '', of.verdicts),
  ...of.byProcedure.flatMap((row) => verdictRows('procedure', row.name, row)),
  ...of.bySteel.flatMap((row) => verdictRows('steel', row.name, row)),
  ...of.byHeat.flatMap((row) => verdictRows('heat', row.name, row)),
  ...of.byPeriod.flatMap((row) => [
    ...verdictRows(period, row.name, row),
    ...shareRows(period, row.name, 'interpass above maximum', row.interpass),
    ...spreadRows(period, row.name, 'heat on to first arc, seconds', row.heatToArc),
  ]),
  ...of.welders.flatMap((row) => shareRows('welder', row.name, 'passes with a limit not kept', row.passes)),
  ...of.findings.flatMap(({ kind, times, joints }): Figure[] => [
    ['finding', kind, 'joints', joints, of.joints],
    ['finding', kind, 'times', times, undefined],
  ]),
  ...spreadRows('heat on to first arc', '', 'seconds', of.heatToArc),
  ['heat on to first arc', '', 'left out', of.heatToArc.leftOut, of.joints],
  ...shareRows('hold lost', '', 'joints', of.holdLost),
  ['hold lost', '', 'times', of.holdLost.times, undefined],
  ...shareRows('interpass', '', 'passes above maximum', of.interpass),
  ['interpass', '', 'left out: no maximum', of.interpass.noMaximum, undefined],
  ['interpass', '', 'left out: not judged', of.interpass.notJudged, undefined],
  ...of.probes.flatMap(({ what, name, faulty, joints, times }): Figure[] => [
    [`probe faults by ${what}`, name, 'joints', faulty, joints],
    [`probe faults by ${what}`, name, 'times', times, undefined],
  ]),
  ...shareRows('breaks', '', 'joints', of.breaks),
  ['breaks', '', 'times', of.breaks.times, undefined],
];

const verdictRows = (table: string, name: string, counted: VerdictCount): Figure[] =>
  (['complies', 'does-not-comply', 'cannot-be-judged'] as const).map((verdict) => [
    table,
    name,
    verdict,
    counted[verdict],
    counted.n,
  ]);

const shareRows = (table: string, name: string, figure: string, share: Share): Figure[] => [
  [table, name, figure, share.count, share.of],
  ...(share.rate === undefined
    ? []
    : ([
        [table, name, `${figure}, per 100`, hundredths(share.rate), share.of],
        [table, name, `${figure}, per 100, from`, hundredths(share.from!), share.of],
        [table, name, `${figure}, per 100, to`, hundredths(share.to!), share.of],
      ] satisfies Figure[])),
];

const spreadRows = (table: string, name: string, figure: string, { n, ...spread }: Spread): Figure[] =>
  (['lowest', 'lowerQuartile', 'median', 'upperQuartile', 'highest'] as const).flatMap((part): Figure[] => {
    const value = spread[part];
    return value === undefined ? [] : [[table, name, `${figure}, ${quantiles[part]}`, Math.round(value / 1000), n]];
  });

const quantiles = {
  lowest: 'lowest',
  lowerQuartile: 'lower quartile',
  median: 'median',
  upperQuartile: 'upper quartile',
  highest: 'highest',
} as const;

const hundredths = (rate: number): string => (rate * 100).toFixed(1);
