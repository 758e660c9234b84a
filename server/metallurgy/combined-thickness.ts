/**
 * Combined thickness of EN 1011-2 figure C.1: the sum of the thicknesses of all ways by which heat leaves the weld.
 * From memory throughout. Half the sum for two fillets that are made at the same time is not offered: whether they
 * are is not stated of a joint. Each part counts by its own thickness; the mean over 75 mm beside the weld, where a
 * part tapers, has to be entered as that thickness.
 */
import type { Joint } from '../weld/joint.ts';
import type { Part } from '../weld/part.ts';
import type { WorkingTerm } from './answer.ts';

export interface CombinedThickness {
  readonly millimetres: number;
  /** One way of the heat each; they sum to the combined thickness. */
  readonly terms: readonly WorkingTerm[];
  /** What was taken without being stated, and what is from memory; one sentence each. */
  readonly flags: readonly string[];
}

export function combinedThickness(joint: Joint): CombinedThickness {
  const parts = [...joint.parts].sort((a, b) => counted(b) - counted(a));
  const [thickest, second] = parts as [Part, Part | undefined];
  const ways = threeWays.includes(joint.jointType)
    ? [thickest, thickest, second ?? thickest]
    : [thickest, second ?? thickest];
  const terms = ways.map((part, index) => term(part, index));
  return {
    millimetres: terms.reduce((sum, one) => sum + one.value, 0),
    terms,
    flags: [
      'the ways of the heat are counted from memory of figure C.1',
      ...(ways.length === 3 && joint.parts.length > 1
        ? ['which part runs through is not stated: the thickest is counted both ways']
        : []),
      ...(joint.parts.length > 2 ? ['of more than two parts the two thickest are counted'] : []),
      ...roundFlags(ways),
    ],
  };
}

/** Joints where one part runs through under the weld, so that heat leaves by three ways; the others have two. */
const threeWays: readonly Joint['jointType'][] = ['T', 'cruciform', 'lap', 'nozzle or branch'];

/** A solid bar counts by half its diameter, a tube by its wall, a plate by its thickness. Millimetres. */
const counted = (part: Part): number =>
  part.form === 'bar' && part.outsideDiameterMillimetres !== undefined
    ? part.outsideDiameterMillimetres / 2
    : part.thicknessMillimetres;

function term(part: Part, index: number): WorkingTerm {
  const bar = part.form === 'bar' && part.outsideDiameterMillimetres !== undefined;
  const formula = bar ? 'half the diameter' : part.form === 'tube' ? 'wall' : 'thickness';
  return { name: `t${index + 1}, ${part.id}`, formula, value: counted(part), unit: 'mm' };
}

function roundFlags(ways: readonly Part[]): string[] {
  const bars = ways.filter((part) => part.form === 'bar');
  return [
    ...(bars.some((part) => part.outsideDiameterMillimetres !== undefined)
      ? ['a bar is counted by half its diameter (rule from memory)']
      : []),
    ...(bars.some((part) => part.outsideDiameterMillimetres === undefined)
      ? ['the diameter of a bar is not stated: its thickness is counted in full']
      : []),
    ...(ways.some((part) => part.form === 'tube') ? ['a tube is counted by its wall (rule from memory)'] : []),
  ];
}
