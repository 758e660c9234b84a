/** Every kind of mishap; a new one is an entry in the file of its place and its name in mishap.ts. */
import { converter } from './converter.ts';
import type { KindOfMishap, Mishap, MishapKind } from './mishap.ts';
import { pickUp } from './pick-up.ts';
import { tip } from './tip.ts';
import { wiring } from './wiring.ts';

export const kindsOfMishap: { readonly [kind in MishapKind]: KindOfMishap } = {
  ...wiring,
  ...tip,
  ...pickUp,
  ...converter,
};

/** What is wrong with a mishap as it is said, in one sentence; undefined where nothing is. */
export function mishapProblem({ kind, severity, wire, other, fromSeconds, untilSeconds }: Mishap): string | undefined {
  const rule = kindsOfMishap[kind];
  if (severity !== undefined) {
    if (rule.severity === undefined) return `${kind} takes no severity`;
    const { lowest, highest, unit, means } = rule.severity;
    const inBounds = severity >= lowest && severity <= highest;
    const of = unit === '' ? '' : ` ${unit}`;
    if (!inBounds) return `${kind} takes a severity from ${lowest} to ${highest}${of} (${means})`;
  }
  if ((rule.asks === 'wire') !== (wire !== undefined)) {
    return rule.asks === 'wire' ? `${kind} asks which type the wire is` : `${kind} takes no type of wire`;
  }
  if ((rule.asks === 'other') !== (other !== undefined)) {
    return rule.asks === 'other' ? `${kind} asks for the other probe` : `${kind} takes no other probe`;
  }
  if (!(fromSeconds >= 0) || (untilSeconds !== undefined && !(untilSeconds > fromSeconds))) {
    return `${kind} must begin at 0 or later and end after it has begun`;
  }
  return undefined;
}
