/**
 * A minimum that a person read off a published chart. The chart itself is its publisher's and is not here; what was
 * read, with what, and from which curve stands in the joint file, and is shown beside what the joint itself says.
 */
import type { ChartReading } from '../../weld/chart-reading.ts';
import { codeSets } from '../../weld/code.ts';
import type { Joint } from '../../weld/joint.ts';
import type { Part } from '../../weld/part.ts';
import type { WorkingInput } from '../answer.ts';
import { combinedThickness } from '../combined-thickness.ts';
import type { Method, Outcome, PartFacts } from '../method.ts';
import { plain, steady } from '../number.ts';

/** The method of one reading. Its role is what the reader stated; `base` names what is known of the method besides. */
export function chartMethod(reading: ChartReading, base: Partial<Method> = {}): Method {
  return {
    id: `chart: ${reading.method}`,
    title: `${reading.method} (read off a chart)`,
    edition: reading.chart,
    codeSets,
    ferriticOnly: false,
    formula: 'no formula; read off a chart by a person',
    needs: ['a reading of the chart'],
    range: [],
    source: 'entered by a person',
    ...base,
    role: reading.role,
    tabulated: true,
    status: 'entered',
    work: (facts) => work(reading, facts),
  };
}

/** The readings that hold for a part: its own, or for a method where it has none of its own, the joint's. */
export function readingsFor(joint: Joint, part: Part): readonly ChartReading[] {
  const all = joint.chartReadings ?? [];
  const own = all.filter((one) => one.part === part.id);
  const shared = all.filter((one) => one.part === undefined && !own.some((other) => other.method === one.method));
  return [...own, ...shared];
}

function work(reading: ChartReading, facts: PartFacts): Outcome {
  const scale = reading.scale === undefined ? '' : `, ${reading.scale}`;
  return {
    kind: 'computes',
    celsius: reading.preheatMinimumCelsius,
    inputs: comparisons(reading, facts).flatMap(({ input }) => input),
    terms: [
      {
        name: 'as read',
        formula: `${reading.chart}${scale}`,
        value: reading.preheatMinimumCelsius,
        unit: '°C',
      },
    ],
    flags: comparisons(reading, facts).flatMap(({ flag }) => flag),
    extended: [],
  };
}

interface Comparison {
  readonly input: WorkingInput[];
  readonly flag: string[];
}

/** What the chart was entered with, against what the joint says now: less thickness or CE, or more heat, asks for less. */
function comparisons(reading: ChartReading, { joint, equivalent, heatInput }: PartFacts): Comparison[] {
  return [
    compared('combined thickness', 'mm', reading.combinedThicknessMillimetres, combinedThickness(joint).millimetres, 1),
    compared('CE', '%', reading.carbonEquivalentPercent, equivalent('CE').value, 1),
    compared(
      'heat input',
      'kJ/mm',
      reading.heatInputKilojoulesPerMillimetre,
      heatInput.known ? heatInput.input.value : undefined,
      -1,
    ),
  ];
}

function compared(
  name: string,
  unit: string,
  read: number | undefined,
  own: number | undefined,
  demanding: 1 | -1,
): Comparison {
  if (read === undefined) return { input: [], flag: [`the reading does not say for which ${name} the chart was read`] };
  const input = [{ name, value: read, unit, from: 'what the chart was read for' }];
  if (own === undefined || steady((own - read) * demanding) <= 0) return { input, flag: [] };
  return {
    input,
    flag: [`the chart was read for ${name} ${plain(read)} ${unit}, the joint has ${plain(own)} ${unit}: read it again`],
  };
}
