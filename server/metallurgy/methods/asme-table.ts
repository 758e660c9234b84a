/**
 * The preheat tables of the ASME piping codes, read the same way: rows by P-number, tried in their order, each with
 * conditions on thickness, strength or content; the first row whose conditions hold is the row. A fact is asked for
 * only where the rows that are still possible differ in their temperature. Thickness is the greater at the joint.
 */
import { unitsOf } from '../../measure/units.ts';
import type { CodeSet } from '../../weld/code.ts';
import type { Element } from '../../weld/composition.ts';
import type { Part, pNumbers } from '../../weld/part.ts';
import { content } from '../analysis.ts';
import type { Status, WorkingInput } from '../answer.ts';
import { celsiusOfLimit, lengthIn, thickestAtJoint } from '../job-units.ts';
import type { Method, Outcome, PartFacts } from '../method.ts';
import { plain } from '../number.ts';

export type PNumber = (typeof pNumbers)[number];

/** An edge of thickness as the metric and as the inch text of a code prints it. */
export interface Edge {
  readonly metric: number;
  readonly inch: number;
}
export const halfInch: Edge = { metric: 13, inch: 0.5 };
export const fiveEighths: Edge = { metric: 16, inch: 0.625 };
export const oneInch: Edge = { metric: 25, inch: 1 };

export interface Row {
  readonly pNumbers: readonly PNumber[];
  readonly thicknessAbove?: Edge;
  /** The edge itself belongs to this row. */
  readonly thicknessFrom?: Edge;
  readonly tensileAboveMegapascals?: number;
  readonly carbonAbovePercent?: number;
  readonly chromiumAbovePercent?: number;
  readonly celsius: number;
  /** Where the code prints it beside the Celsius; counts in a job in inch units. */
  readonly fahrenheit?: number;
  readonly recommended?: true;
  readonly note?: string;
}

export interface AsmeTable {
  readonly id: string;
  readonly title: string;
  readonly edition: string;
  /** The code whose floor it is. Absent: it compares only. */
  readonly codeSet?: CodeSet;
  readonly rows: readonly Row[];
  readonly source: string;
  readonly status: Status;
  /** Said of every recommended row. */
  readonly recommendedNote?: string;
}

export function asmeTable(table: AsmeTable): Method {
  const { id, title, edition, codeSet, source, status } = table;
  return {
    id,
    title,
    edition,
    role: codeSet === undefined ? 'comparison only' : 'code minimum',
    codeSets: codeSet === undefined ? [] : [codeSet],
    ferriticOnly: false,
    tabulated: true,
    ownFacts: ({ part }) => (part.pNumber === undefined ? [askPNumber] : []),
    formula: 'table by P-number, greater thickness, and where the row needs it tensile strength, carbon or chromium',
    needs: ['P-number', 'thickness', 'where the row needs it: specified tensile strength, C, Cr'],
    range: [],
    source,
    status,
    work: (facts) => work(table, facts),
  };
}

const askPNumber = 'the P-number of the part';

function work(table: AsmeTable, facts: PartFacts): Outcome {
  const { part, joint } = facts;
  const thickness = thickestAtJoint(joint);
  if (part.pNumber === undefined) return { kind: 'asks', missing: [askPNumber], inputs: [thickness] };
  const own = table.rows.filter((row) => row.pNumbers.includes(part.pNumber!));
  if (own.length === 0) {
    const reason = `no row for P-No. ${part.pNumber} is known here; see the code itself`;
    return { kind: 'refuses', reason, inputs: [thickness] };
  }
  const open = stillPossible(own, facts);
  const inputs = [thickness, ...inputsOf(own, part)];
  const [row, ...others] = open.map(({ row }) => row);
  if (others.some((other) => other.celsius !== row!.celsius || other.recommended !== row!.recommended)) {
    return { kind: 'asks', missing: [...new Set(open.flatMap(({ unknown }) => unknown))], inputs };
  }
  const celsius =
    unitsOf(joint) === 'inch' && row!.fahrenheit !== undefined ? celsiusOfLimit(row!.fahrenheit) : row!.celsius;
  return {
    kind: 'computes',
    celsius,
    inputs,
    terms: [{ name: `P-No. ${part.pNumber}`, formula: rowWords(row!), value: celsius, unit: '°C' }],
    flags: [],
    notes: [
      ...(row!.note === undefined ? [] : [row!.note]),
      ...(row!.recommended && table.recommendedNote !== undefined ? [table.recommendedNote] : []),
    ],
    extended: [],
    ...(row!.recommended ? { recommended: true } : {}),
  };
}

interface Possible {
  readonly row: Row;
  /** Facts that would decide it, in words. */
  readonly unknown: readonly string[];
}

/** Rows that no known fact excludes, up to the first that certainly holds. */
function stillPossible(rows: readonly Row[], facts: PartFacts): Possible[] {
  const open: Possible[] = [];
  for (const row of rows) {
    const tests = conditions(row, facts);
    if (tests.some(({ holds }) => holds === false)) continue;
    const unknown = tests.filter(({ holds }) => holds === undefined).map(({ ask }) => ask);
    open.push({ row, unknown });
    if (unknown.length === 0) break;
  }
  return open;
}

interface Condition {
  readonly holds: boolean | undefined;
  readonly ask: string;
}

function conditions(row: Row, { joint, part }: PartFacts): Condition[] {
  const system = unitsOf(joint);
  const thickness = lengthIn(system, thickestAtJoint(joint).value);
  const above = (value: number | undefined, limit: number | undefined, ask: string): Condition[] =>
    limit === undefined ? [] : [{ holds: value === undefined ? undefined : value > limit, ask }];
  const from = row.thicknessFrom?.[system];
  return [
    ...above(thickness, row.thicknessAbove?.[system], ''),
    ...(from === undefined ? [] : [{ holds: thickness >= from, ask: '' }]),
    ...above(part.tensileMegapascals, row.tensileAboveMegapascals, 'the specified tensile strength of the part'),
    ...above(highest(part, 'C')?.value, row.carbonAbovePercent, 'C in its analysis'),
    ...above(highest(part, 'Cr')?.value, row.chromiumAbovePercent, 'Cr in its analysis'),
  ];
}

/** Highest content over all analyses; undefined where one of them does not give it. */
function highest({ analyses }: Part, element: Element): WorkingInput | undefined {
  const stated = analyses.map((analysis) => content(analysis, analyses, element)).filter((one) => one !== undefined);
  if (stated.length === 0 || stated.length < analyses.length) return undefined;
  return stated.reduce((most, one) => (one.value > most.value ? one : most));
}

/** The facts that some row of this P-number looks at, where they are known. */
function inputsOf(rows: readonly Row[], part: Part): WorkingInput[] {
  const looked = (key: keyof Row) => rows.some((row) => row[key] !== undefined);
  const found = (element: Element): WorkingInput[] => {
    const input = highest(part, element);
    return input === undefined ? [] : [input];
  };
  return [
    ...(looked('tensileAboveMegapascals') && part.tensileMegapascals !== undefined
      ? [{ name: 'SMTS', value: part.tensileMegapascals, unit: 'MPa', from: 'specified for the part' }]
      : []),
    ...(looked('carbonAbovePercent') ? found('C') : []),
    ...(looked('chromiumAbovePercent') ? found('Cr') : []),
  ];
}

/** "t > 25 mm, C > 0.3 %", or "every thickness" where the row asks for nothing. */
function rowWords(row: Row): string {
  const edge = ({ metric, inch }: Edge) => `${plain(metric)} mm (${inch} in)`;
  const words = [
    ...(row.thicknessAbove === undefined ? [] : [`t > ${edge(row.thicknessAbove)}`]),
    ...(row.thicknessFrom === undefined ? [] : [`t ≥ ${edge(row.thicknessFrom)}`]),
    ...(row.tensileAboveMegapascals === undefined ? [] : [`SMTS > ${plain(row.tensileAboveMegapascals, 1)} MPa`]),
    ...(row.carbonAbovePercent === undefined ? [] : [`C > ${plain(row.carbonAbovePercent)} %`]),
    ...(row.chromiumAbovePercent === undefined ? [] : [`Cr > ${plain(row.chromiumAbovePercent)} %`]),
  ];
  return words.length === 0 ? 'all others of this P-number' : words.join(', ');
}
