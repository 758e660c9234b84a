/**
 * How long to wait between the end of welding and the last test, since hydrogen cracks may open hours later. Each
 * edition has its own table and asks for its own facts; none is chosen for the user.
 */
import type { Joint } from '../weld/joint.ts';
import type { Citation } from './citation.ts';
import { heatInput } from './heat-input.ts';
import { plain, steady } from './number.ts';

export type WaitingEdition = NonNullable<Joint['waitingEdition']>;

export interface WaitingRule extends Citation {
  readonly edition: WaitingEdition;
  /** What the rule is, in short words, for the list that a person chooses from. */
  readonly words: string;
  readonly work: (facts: WaitingFacts) => WaitingOutcome;
}

export interface WaitingFacts {
  readonly joint: Joint;
  readonly sizeMillimetres: number;
  readonly thickestMillimetres: number;
}

/** Zero hours: no wait beyond the cooling itself. No hours at all: the rule gives none for this steel. */
export type WaitingOutcome =
  | { readonly kind: 'asks'; readonly missing: readonly string[] }
  | { readonly kind: 'waits'; readonly hours: number; readonly because: string; readonly notes: readonly string[] }
  | { readonly kind: 'silent'; readonly because: string };

/** Hours by row: up to 6 mm, up to 12 mm at low and high heat input, above 12 mm at low and high heat input. */
type Hours = readonly [number, number, number, number, number];
const ordinary: Hours = [0, 8, 16, 16, 40];
const high: Hours = [24, 24, 40, 40, 48];

export const waitingRules: readonly WaitingRule[] = [
  {
    edition: 'EN 1090-2:2008',
    words: 'table 23, by weld size, heat input and steel: none to 48 h',
    source: 'EN 1090-2:2008, table 23',
    status: 'verified',
    weight: 'standard',
    remark: 'the edition of 2018 changed this table (from memory)',
    work: byClass,
  },
  {
    edition: 'UK structural specification 2007',
    words: 'by weld size and heat input: none to 40 h',
    source: 'structural steelwork specification, 5th edition 2007',
    status: 'verified',
    weight: 'standard',
    remark: 'one column for all of its steels',
    work: ({ joint, sizeMillimetres }) =>
      tabulated(joint, sizeMillimetres, ordinary, 'all steels of the specification'),
  },
  {
    edition: 'EN 1011-2:2001',
    words: 'clause 18: in general at least 16 h, none after hydrogen release',
    source: 'EN 1011-2:2001, clause 18',
    status: 'verified',
    weight: 'standard',
    work: general,
  },
  {
    edition: 'North Sea practice',
    words: '48 h',
    source: 'a specification for the North Sea',
    status: 'verified',
    weight: 'common practice',
    work: () => ({ kind: 'waits', hours: 48, because: '48 h for all welds', notes: [] }),
  },
  {
    edition: 'AWS D1.1',
    words: '48 h for quenched and tempered steel of the 690 MPa class',
    source: 'AWS D1.1',
    status: 'from memory',
    weight: 'code',
    work: quenchedAndTempered,
  },
];

/** A yield above that of S420 counts as the higher class, so that a thick S460 plate of 430 MPa does too. */
const highClassAboveMegapascals = 420;

function byClass({ joint, sizeMillimetres }: WaitingFacts): WaitingOutcome {
  const missing = joint.parts
    .filter((part) => part.yieldMegapascals === undefined)
    .map((part) => `the yield strength of part ${part.id}`);
  const highest = Math.max(...joint.parts.map((part) => part.yieldMegapascals ?? 0));
  const isHigh = highest > highClassAboveMegapascals;
  const row = tabulated(joint, sizeMillimetres, isHigh ? high : ordinary, isHigh ? 'S460 and above' : 'S235 to S420');
  if (missing.length > 0) {
    // The higher class asks for the heat input in the same rows, so that all is asked for at once.
    return { kind: 'asks', missing: [...missing, ...(row.kind === 'asks' ? row.missing : [])] };
  }
  if (row.kind !== 'waits') return row;
  const notes = [
    ...(isHigh ? [] : ['a thick plate of S460 may have a yield of 420 MPa or less and still counts as S460']),
    ...(joint.postHeating === undefined
      ? []
      : ['may be shortened after post-heating by EN 1011-2; how far is not given, the time is not shortened here']),
    'the time is stated in the test report',
  ];
  return { ...row, notes: [...row.notes, ...notes] };
}

function tabulated(joint: Joint, size: number, hours: Hours, steels: string): WaitingOutcome {
  const at = steady(size);
  if (at <= 6) return waits(hours[0], `weld size ${plain(at)} mm, up to 6 mm, ${steels}`);
  const q = heatInput(joint);
  if (!q.known) return { kind: 'asks', missing: [q.ask] };
  const low = steady(q.input.value) <= 3;
  const band = at <= 12 ? 'above 6 to 12 mm' : 'above 12 mm';
  const value = at <= 12 ? (low ? hours[1] : hours[2]) : low ? hours[3] : hours[4];
  const heat = `heat input ${plain(q.input.value, 3)} kJ/mm, ${low ? 'up to' : 'above'} 3 kJ/mm`;
  return waits(value, `weld size ${plain(at)} mm, ${band}; ${heat}; ${steels}`);
}

function general({ joint, thickestMillimetres }: WaitingFacts): WaitingOutcome {
  if (releasesHydrogen(joint)) {
    const notes = [
      'holds only where the post-heating was done as stated, and the record shows it',
      'in a thick part much of the hydrogen can still be there after it: see the share that is left',
    ];
    return { kind: 'waits', hours: 0, because: 'none beyond cooling after hydrogen release', notes };
  }
  const yields = joint.parts.map((part) => part.yieldMegapascals);
  const strong = yields.some((value) => value !== undefined && value > 500);
  const thick = thickestMillimetres > 50;
  const more = [
    ...(thick ? [`thicker than 50 mm (${plain(thickestMillimetres)} mm)`] : []),
    ...(strong ? ['a yield strength above 500 MPa'] : []),
  ];
  const unknown = yields.some((value) => value === undefined);
  const notes = [
    ...(joint.postHeating === undefined
      ? []
      : ['post-heating below 200 °C or 2 h is not counted as hydrogen release here (from memory)']),
    ...(more.length > 0 ? [`more than 16 h is asked for: ${more.join(' and ')}; how much more is not given`] : []),
    ...(unknown && !strong ? ['more than 16 h is asked for above 500 MPa; not every yield strength is stated'] : []),
  ];
  return { kind: 'waits', hours: 16, because: 'in general at least 16 h after welding', notes };
}

/** From about 200 °C and 2 h on (SEW 088 and EN 1011-2, from memory). */
const releasesHydrogen = ({ postHeating }: Joint): boolean =>
  postHeating !== undefined && postHeating.celsius >= 200 && postHeating.hours >= 2;

function quenchedAndTempered({ joint }: WaitingFacts): WaitingOutcome {
  const isIt = joint.parts.some((part) => part.kind === 'quenched and tempered 690');
  if (isIt) return waits(48, 'quenched and tempered steel of the 690 MPa class');
  const missing = joint.parts
    .filter((part) => part.kind === undefined)
    .map((part) => `the kind of material of part ${part.id}`);
  if (missing.length > 0) return { kind: 'asks', missing };
  return { kind: 'silent', because: 'this rule gives a time for quenched and tempered 690 only' };
}

const waits = (hours: number, because: string): WaitingOutcome => ({ kind: 'waits', hours, because, notes: [] });
