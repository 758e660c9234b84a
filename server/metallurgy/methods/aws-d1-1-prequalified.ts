/**
 * AWS D1.1, minimum prequalified preheat and interpass temperature: a table by category of steel and process and by
 * the thickest part at the weld. The category is each part's own and is asked for. Categories A and B from
 * reproduced pages (2015) and a United States Army design manual; C and D second-hand.
 */
import { type UnitSystem, unitsOf } from '../../measure/units.ts';
import type { Part } from '../../weld/part.ts';
import type { Status } from '../answer.ts';
import { celsiusOfLimit, lengthIn, thickestAtJoint, unitsFlag } from '../job-units.ts';
import type { Method, Outcome, PartFacts } from '../method.ts';

type Category = NonNullable<Part['awsCategory']>;

/** Thickness of each band at its upper end, which is inside; the fourth has none. */
const edges: Readonly<Record<UnitSystem, readonly number[]>> = { metric: [20, 38, 65], inch: [0.75, 1.5, 2.5] };
const thinnest: Readonly<Record<UnitSystem, number>> = { metric: 3, inch: 0.125 };

const rows: Readonly<Record<Category, Readonly<Record<UnitSystem, readonly number[]>> & { readonly status: Status }>> =
  {
    A: { metric: [0, 65, 110, 150], inch: [32, 150, 225, 300], status: 'verified' },
    B: { metric: [0, 10, 65, 110], inch: [32, 50, 150, 225], status: 'verified' },
    C: { metric: [10, 65, 110, 150], inch: [50, 150, 225, 300], status: 'second-hand' },
    D: { metric: [0, 0, 0, 0], inch: [32, 32, 32, 32], status: 'second-hand' },
  };

const askCategory = 'the category of the part in the prequalified table (by steel and process): A, B, C or D';

export const awsD11Prequalified: Method = {
  id: 'aws-d1-1-prequalified',
  title: 'AWS D1.1 prequalified minimum',
  edition: 'AWS D1.1 table 3.2 (to 2010), 3.3 (2015), 5.8 (2020), 5.11 (2025)',
  role: 'may govern',
  codeSets: ['AWS D1.1'],
  ferriticOnly: true,
  tabulated: true,
  ownFacts: ({ part }) => (part.awsCategory === undefined ? [askCategory] : []),
  formula: 'table by category and by the thickest part at the weld',
  needs: ['category of steel and process', 'thickness'],
  range: [],
  source: 'AWS D1.1 table of prequalified minimum preheat: categories A and B verified, C and D second-hand',
  status: 'second-hand',
  work,
};

/** Printed minimum of a category at a thickness in millimetres, in the degrees of the system. */
export function prequalifiedMinimum(category: Category, system: UnitSystem, millimetres: number): number {
  const length = lengthIn(system, millimetres);
  return rows[category][system][edges[system].filter((edge) => length > edge).length]!;
}

function work({ joint, part, hydrogen }: PartFacts): Outcome {
  const thickness = thickestAtJoint(joint);
  const category = part.awsCategory;
  const inputs = [thickness];
  if (category === undefined) return { kind: 'asks', missing: [askCategory], inputs };
  const system = unitsOf(joint);
  if (lengthIn(system, thickness.value) < thinnest[system]) {
    return { kind: 'refuses', reason: 'the table begins at 3 mm (1/8 in)', inputs };
  }
  if (category === 'D') {
    if (!hydrogen.known) return { kind: 'asks', missing: [hydrogen.ask], inputs };
    if (hydrogen.input.value > 8) {
      const reason = 'category D is for consumables of class H8 or lower';
      return { kind: 'refuses', reason, inputs: [...inputs, hydrogen.input] };
    }
  }
  const printed = prequalifiedMinimum(category, system, thickness.value);
  const unit = system === 'metric' ? '°C' : '°F';
  const celsius = system === 'metric' ? printed : celsiusOfLimit(printed);
  return {
    kind: 'computes',
    celsius,
    inputs,
    terms: [{ name: `category ${category}`, formula: `printed ${printed} ${unit}`, value: celsius, unit: '°C' }],
    flags: unitsFlag(joint),
    notes: [
      ...(celsius === 0
        ? ['a part below 0 °C (32 °F) is heated to 20 °C (70 °F) at least, and kept there (from memory)']
        : []),
      ...(category === 'A' && joint.process !== '111'
        ? [`category A is for stick electrodes that are not low in hydrogen; the process here is ${joint.process}`]
        : []),
    ],
    extended: [],
    status: rows[category].status,
  };
}
