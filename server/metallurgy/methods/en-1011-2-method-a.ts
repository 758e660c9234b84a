/**
 * EN 1011-2:2001, annex C.2, "method A": no formula. The preheat is read off figure C.2, whose curves are the
 * publisher's; a reading is entered and then stands (see chart-reading.ts). Without one this shows with what to read
 * the figure, and what table C.1 of the standard says of welding without preheat. The table is not interpolated.
 */
import type { ChartReading } from '../../weld/chart-reading.ts';
import type { WorkingInput } from '../answer.ts';
import { combinedThickness } from '../combined-thickness.ts';
import type { Method, Outcome, PartFacts } from '../method.ts';
import { plain, steady } from '../number.ts';
import { outside } from '../range.ts';
import { chartMethod } from './chart-reading.ts';

/** What a chart reading of this method names in its field `method`. */
export const methodAName = 'EN 1011-2 method A';

export const en10112MethodA: Method = {
  id: 'en-1011-2-method-a',
  title: 'EN 1011-2 method A (CE)',
  edition: 'EN 1011-2:2001 + A1:2003, C.2',
  role: 'may govern',
  codeSets: ['EN 1011-2', 'ASME B31.3:2014', 'ASME B31.3:2010', 'ASME B31.1'],
  ferriticOnly: true,
  tabulated: true,
  ownFacts: () => ['a reading of figure C.2'],
  offered: true,
  formula: 'no formula; figure C.2 by CE, hydrogen scale, combined thickness and heat input',
  needs: ['a reading of figure C.2'],
  range: [
    {
      quantity: 'CE',
      symbol: 'CE',
      unit: '%',
      minimum: 0.3,
      maximum: 0.7,
      below: 'refused',
      above: 'refused',
      status: 'from memory',
    },
  ],
  source:
    'EN 1011-2:2001 + A1:2003, annex C.2: table C.1 and bounds of the scales from a public copy, letters from memory',
  status: 'verified',
  work,
};

/** The method with what a person read off figure C.2; same id, so that a job can declare it binding. */
export const methodAAsRead = (reading: ChartReading): Method => {
  const { id, title, edition, codeSets, ferriticOnly, formula, source } = en10112MethodA;
  return chartMethod(reading, {
    id,
    title,
    edition,
    codeSets,
    ferriticOnly,
    formula,
    source: `${source}; value entered`,
  });
};

/** Letter of the hydrogen scale, ml/100 g; the upper bound belongs to the scale. */
export function hydrogenScale(hd: number): 'A' | 'B' | 'C' | 'D' | 'E' {
  if (hd > 15) return 'A';
  if (hd > 10) return 'B';
  if (hd > 5) return 'C';
  return hd > 3 ? 'D' : 'E';
}

/** Table C.1: largest combined thickness in mm without preheat, by scale, then by CE and heat input. */
const tableC1 = {
  A: { '0.49': { '1': 25, '2': 50 }, '0.43': { '1': 40, '2': 80 } },
  B: { '0.49': { '1': 30, '2': 55 }, '0.43': { '1': 50, '2': 90 } },
  C: { '0.49': { '1': 35, '2': 65 }, '0.43': { '1': 60, '2': 100 } },
  D: { '0.49': { '1': 50, '2': 100 }, '0.43': { '1': 100, '2': 100 } },
  E: { '0.49': { '1': 60, '2': 100 }, '0.43': { '1': 100, '2': 100 } },
} as const;

export interface WithoutPreheat {
  /** The column that was taken: CE up to the next, heat input down to the next. */
  readonly ce: 0.43 | 0.49;
  readonly q: 1 | 2;
  readonly millimetres: number;
}

/** Undefined where the table has no column on the safe side: CE above 0.49, or less than 1 kJ/mm. */
export function withoutPreheat(ce: number, hd: number, q: number): WithoutPreheat | undefined {
  const [at, heat] = [steady(ce), steady(q)];
  if (at > 0.49 || heat < 1) return undefined;
  const column = at <= 0.43 ? 0.43 : 0.49;
  const row = heat >= 2 ? 2 : 1;
  return { ce: column, q: row, millimetres: tableC1[hydrogenScale(hd)][`${column}`][`${row}`] };
}

function work(facts: PartFacts): Outcome {
  const { joint, part, hydrogen, heatInput } = facts;
  const ce = facts.equivalent('CE');
  const combined = combinedThickness(joint);
  const inputs: WorkingInput[] = [
    { name: 'combined thickness', value: combined.millimetres, unit: 'mm', from: 'sum of the ways of the heat' },
    ...(ce.value === undefined ? [] : [{ name: 'CE', value: ce.value, unit: '%', from: 'analysis of the part' }]),
    ...(hydrogen.known ? [hydrogen.input] : []),
    ...(heatInput.known ? [heatInput.input] : []),
  ];
  const refused = [
    ...(ce.outOfRange.length === 0 ? [] : [`${ce.outOfRange.join(', ')} (${ce.rangeOf})`]),
    ...(ce.value === undefined ? [] : outside(en10112MethodA.range, { CE: ce.value }).map((one) => one.words)),
  ];
  if (refused.length > 0) return { kind: 'refuses', reason: refused.join('; '), inputs };
  const read = [
    ce.value === undefined ? `CE (needs ${ce.missing.join(', ')} of ${part.id})` : `CE ${plain(ce.value, 3)}`,
    hydrogen.known
      ? `hydrogen scale ${hydrogenScale(hydrogen.input.value)}`
      : 'the hydrogen scale (hydrogen not stated)',
    `combined thickness ${plain(combined.millimetres, 1)} mm`,
    heatInput.known ? `heat input ${plain(heatInput.input.value, 2)} kJ/mm` : 'the heat input (not stated)',
  ];
  const known = ce.value !== undefined && hydrogen.known && heatInput.known;
  const table = known
    ? [tableWords(withoutPreheat(ce.value, hydrogen.input.value, heatInput.input.value), combined.millimetres)]
    : [];
  return {
    kind: 'indicates',
    indication: `no formula: read figure C.2 with ${read.join(', ')}, and enter the reading`,
    inputs,
    terms: combined.terms,
    flags: combined.flags,
    notes: table,
  };
}

function tableWords(found: WithoutPreheat | undefined, combined: number): string {
  if (found === undefined) return 'table C.1 has no column for this CE and heat input; it is not extended';
  const { ce, q, millimetres } = found;
  const side = combined <= millimetres ? 'not above it' : 'above it: the figure asks for preheat';
  return `table C.1 (column CE ${ce}, ${q} kJ/mm): up to ${millimetres} mm of combined thickness without preheat; this joint has ${plain(combined, 1)} mm, ${side}`;
}
