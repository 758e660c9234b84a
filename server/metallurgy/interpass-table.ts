/**
 * Maximum interpass temperatures that are published or practised, by P-number and by kind of material: suggestions
 * to compare with, never limits by themselves. Figures that the sources dispute (duplex by practice) are left out.
 */
import type { Joint } from '../weld/joint.ts';
import type { Part } from '../weld/part.ts';
import type { Citation } from './citation.ts';
import type { Span } from './span.ts';

export interface InterpassRow extends Citation {
  readonly celsius: Span;
  /** As its source prints it for jobs in Fahrenheit, where it does. */
  readonly fahrenheit?: Span;
  /** What it is for, in words. */
  readonly material: string;
  readonly appliesTo: (part: Part, joint: Joint) => boolean;
}

type PNumber = NonNullable<Part['pNumber']>;
type Kind = NonNullable<Part['kind']>;

const one = (celsius: number): Span => ({ lowest: celsius, highest: celsius });
const pNumber =
  (...numbers: readonly PNumber[]) =>
  (part: Part): boolean =>
    part.pNumber !== undefined && numbers.includes(part.pNumber);
const kind =
  (...kinds: readonly Kind[]) =>
  (part: Part): boolean =>
    part.kind !== undefined && kinds.includes(part.kind);
/** A row by P-number holds by kind too where only the kind is stated. */
const either =
  (numbers: readonly PNumber[], of: Kind) =>
  (part: Part): boolean =>
    part.pNumber === undefined ? part.kind === of : numbers.includes(part.pNumber);

const recommended = {
  source: 'API RP 582:2016, table 4',
  status: 'verified',
  weight: 'recommended practice',
} as const;
const navy = { source: 'US Navy preheat table', status: 'verified', weight: 'code' } as const;
const practice = { status: 'from memory', weight: 'common practice' } as const;

export const interpassTable: readonly InterpassRow[] = [
  { celsius: one(315), fahrenheit: one(600), material: 'carbon steel, P-1', appliesTo: pNumber('1'), ...recommended },
  {
    celsius: one(315),
    fahrenheit: one(600),
    material: 'Cr-Mo steel, P-3, 4, 5A, 5B, 5C',
    appliesTo: either(['3', '4', '5A', '5B', '5C'], 'Cr-Mo'),
    ...recommended,
  },
  {
    celsius: one(315),
    fahrenheit: one(600),
    material: '13Cr martensitic, P-6 (410)',
    appliesTo: either(['6'], '13Cr martensitic'),
    ...recommended,
    remark: 'CA6NM 345 °C (650 °F)',
  },
  {
    celsius: one(260),
    fahrenheit: one(500),
    material: 'P-7 (405, 410S)',
    appliesTo: either(['7'], 'ferritic stainless'),
    ...recommended,
  },
  {
    celsius: one(175),
    fahrenheit: one(350),
    material: 'austenitic, P-8',
    appliesTo: either(['8'], 'austenitic'),
    ...recommended,
  },
  {
    celsius: one(150),
    fahrenheit: one(300),
    material: 'duplex, P-10H',
    appliesTo: either(['10H'], 'duplex'),
    ...recommended,
    remark: 'may vary by grade',
  },
  {
    celsius: one(150),
    fahrenheit: one(300),
    material: 'nickel alloys P-41, 42',
    appliesTo: pNumber('41', '42'),
    ...recommended,
  },
  {
    celsius: one(175),
    fahrenheit: one(350),
    material: 'nickel alloys P-43, 44, 45',
    appliesTo: pNumber('43', '44', '45'),
    ...recommended,
  },
  {
    celsius: one(315),
    fahrenheit: one(600),
    material: 'P-6 in piping',
    appliesTo: pNumber('6'),
    source: 'ASME B31.3:2014, table 330.1.1, note',
    status: 'verified',
    weight: 'code',
  },
  {
    celsius: one(230),
    fahrenheit: one(450),
    material: 'P-10I in piping',
    appliesTo: pNumber('10I'),
    source: 'ASME B31.3:2014, table 330.1.1, note',
    status: 'verified',
    weight: 'code',
    remark: 'to be kept between 150 and 230 °C (300 and 450 °F)',
  },
  {
    celsius: one(300),
    material: '9Cr-1Mo-V, P-15E',
    appliesTo: either(['15E'], '9Cr-1Mo-V'),
    source: 'heating-curve sheet that quotes ASME B31.1; guideline of 2015',
    status: 'second-hand',
    weight: 'common practice',
    remark: '300 to 350 °C elsewhere (from memory)',
  },
  {
    celsius: one(260),
    fahrenheit: one(500),
    material: 'Mn-Mo and NiMnMo steel (S-3A), P-3',
    appliesTo: pNumber('3'),
    ...navy,
  },
  {
    celsius: one(260),
    fahrenheit: one(500),
    material: '410 welded with 410NiMo',
    appliesTo: either(['6'], '13Cr martensitic'),
    ...navy,
    remark: 'with this weld metal only',
  },
  {
    celsius: one(177),
    fahrenheit: one(350),
    material: 'austenitic (S-8)',
    appliesTo: either(['8'], 'austenitic'),
    ...navy,
  },
  {
    celsius: one(149),
    fahrenheit: one(300),
    material: 'quenched and tempered carbon steel (S-2)',
    appliesTo: kind('quenched and tempered 690', 'quenched and tempered 890 to 960'),
    ...navy,
    remark: 'the row of the scanned table is not certain',
  },
  ...quenchedAndTempered(),
  {
    celsius: one(290),
    fahrenheit: one(550),
    material: 'seismic work only, taken 25 to 75 mm from the weld',
    appliesTo: (part, joint) => joint.codeSet === 'AWS D1.1' && part.kind === 'C-Mn and fine grain',
    source: 'AWS D1.8',
    status: 'from memory',
    weight: 'code',
  },
  {
    celsius: one(250),
    material: 'C-Mn and fine grain, S275 to S460',
    appliesTo: kind('C-Mn and fine grain'),
    source: 'offshore practice',
    ...practice,
    remark: 'not found in the text of a standard',
  },
  {
    celsius: { lowest: 200, highest: 225 },
    material: 'S690 class',
    appliesTo: kind('quenched and tempered 690'),
    source: 'guidance of steel makers',
    ...practice,
  },
  {
    celsius: { lowest: 150, highest: 200 },
    material: 'S890 and S960 class',
    appliesTo: kind('quenched and tempered 890 to 960'),
    source: 'guidance of steel makers',
    ...practice,
  },
  {
    celsius: one(150),
    material: 'austenitic',
    appliesTo: either(['8'], 'austenitic'),
    source: 'EN 1011-3 and practice',
    ...practice,
    remark: 'fully austenitic 100 °C',
  },
];

/** Two rows by thickness, for preheat and interpass alike. */
function quenchedAndTempered(): InterpassRow[] {
  const row = (
    celsius: number,
    fahrenheit: number,
    thickness: string,
    holds: (mm: number) => boolean,
  ): InterpassRow => ({
    celsius: one(celsius),
    fahrenheit: one(fahrenheit),
    material: `quenched and tempered 690, ${thickness}`,
    appliesTo: (part) => part.kind === 'quenched and tempered 690' && holds(part.thicknessMillimetres),
    source: 'AWS D1.1',
    status: 'from memory',
    weight: 'code',
    remark: 'preheat and interpass alike',
  });
  return [
    row(205, 400, 'up to 38 mm (1½ in)', (mm) => mm <= 38.1),
    row(230, 450, 'above 38 mm (1½ in)', (mm) => mm > 38.1),
  ];
}
