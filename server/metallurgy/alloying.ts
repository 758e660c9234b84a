/**
 * Whether a part is unalloyed or low-alloy steel, which formulas of cooling time are made for. It goes by the
 * stated kind, by the P-number, and by any reported element of 5 % or more (the usual division, common practice).
 */
import type { Element } from '../weld/composition.ts';
import type { Part } from '../weld/part.ts';
import { content } from './analysis.ts';
import { plain } from './number.ts';

const highKinds: readonly (Part['kind'] & string)[] = [
  '13Cr martensitic',
  '9Cr-1Mo-V',
  'ferritic stainless',
  'austenitic',
  'duplex',
  'nickel alloy',
];
const highPNumbers: readonly (Part['pNumber'] & string)[] = [
  '6',
  '7',
  '8',
  '10H',
  '10I',
  '15E',
  '41',
  '42',
  '43',
  '44',
  '45',
];
const alloying: readonly Element[] = ['Cr', 'Ni', 'Mn', 'Mo', 'Cu', 'V', 'Si'];
const highFromPercent = 5;

/** Why the part is not low-alloy steel, in words; undefined where nothing speaks against it. */
export function highAlloy(part: Part): string | undefined {
  if (part.kind !== undefined && highKinds.includes(part.kind)) return `part ${part.id} is ${part.kind}`;
  if (part.pNumber !== undefined && highPNumbers.includes(part.pNumber)) {
    return `part ${part.id} is of P-number ${part.pNumber}`;
  }
  for (const element of alloying) {
    const highest = Math.max(...part.analyses.map((one) => content(one, part.analyses, element)?.value ?? 0), 0);
    if (highest >= highFromPercent) return `part ${part.id} holds ${plain(highest)} % ${element}`;
  }
  return undefined;
}

/** Nothing says of what steel the part is: neither its kind, nor its P-number, nor an analysis with Cr and Ni. */
export const steelUnknown = (part: Part): boolean =>
  part.kind === undefined &&
  part.pNumber === undefined &&
  !part.analyses.some((one) =>
    (['Cr', 'Ni'] as const).every((element) => content(one, part.analyses, element) !== undefined),
  );
