/**
 * Temperature at which martensite begins to form, by two formulas from memory: an indication that stands beside
 * the requirement and never governs. Of several analyses the one that gives the lowest temperature counts; an
 * element that no paper gives is asked for.
 */
import type { Joint } from '../weld/joint.ts';
import type { Part } from '../weld/part.ts';
import { highAlloy } from './alloying.ts';
import type { Status, WorkingInput } from './answer.ts';
import { type EquivalentDefinition, equivalent } from './equivalent.ts';

export interface MartensiteStart {
  readonly part: string;
  /** 'Andrews' or 'Steven and Haynes'. */
  readonly name: string;
  readonly formula: string;
  readonly inputs: readonly WorkingInput[];
  /** Elements to ask for. */
  readonly missing: readonly string[];
  /** Absent where an element is missing or the formula does not apply. */
  readonly celsius?: number;
  /** Why there is no number although all is known; what limits it. Empty where nothing does. */
  readonly remark: string;
  readonly source: string;
  readonly status: Status;
}

/** Both formulas for every part. */
export const martensiteStart = (joint: Joint): readonly MartensiteStart[] =>
  joint.parts.flatMap((part) => formulas.map((one) => worked(one, part)));

interface Formula {
  readonly base: number;
  /** What the elements take off; it rises with each of them, so that the highest is the lowest start. */
  readonly fall: EquivalentDefinition;
}

const shared = { needs: ['C', 'Mn', 'Ni', 'Cr', 'Mo'], range: {}, rangeOf: '', status: 'from memory' } as const;

const formulas: readonly Formula[] = [
  {
    base: 539,
    fall: {
      ...shared,
      id: 'Ms Andrews',
      name: 'Andrews',
      formula: 'Ms = 539 − 423·C − 30.4·Mn − 17.7·Ni − 12.1·Cr − 7.5·Mo',
      compute: (of) => 423 * of('C') + 30.4 * of('Mn') + 17.7 * of('Ni') + 12.1 * of('Cr') + 7.5 * of('Mo'),
      source: 'Andrews, linear formula',
    },
  },
  {
    base: 561,
    fall: {
      ...shared,
      id: 'Ms Steven and Haynes',
      name: 'Steven and Haynes',
      formula: 'Ms = 561 − 474·C − 33·Mn − 17·Cr − 17·Ni − 21·Mo',
      compute: (of) => 474 * of('C') + 33 * of('Mn') + 17 * of('Cr') + 17 * of('Ni') + 21 * of('Mo'),
      source: 'Steven and Haynes',
    },
  },
];

/** Steels and alloys that do not harden by martensite in the way the formulas describe. */
const noMartensite: readonly (Part['kind'] & string)[] = ['ferritic stainless', 'austenitic', 'duplex', 'nickel alloy'];

function worked({ base, fall }: Formula, part: Part): MartensiteStart {
  const { name, formula, source, status } = fall;
  const { value, inputs, missing } = equivalent(fall, part.id, part.analyses);
  const head = { part: part.id, name, formula, inputs, missing, source, status };
  if (part.kind !== undefined && noMartensite.includes(part.kind)) {
    return { ...head, missing: [], remark: `part ${part.id} is ${part.kind}: the formula says nothing of it` };
  }
  const high = highAlloy(part);
  const remark = high === undefined ? '' : `${high}: beyond the low-alloy steels that the formula comes from`;
  return { ...head, ...(value === undefined ? {} : { celsius: base - value }), remark };
}
