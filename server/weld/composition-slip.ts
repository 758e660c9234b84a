/**
 * Likely slips in an analysis: a carbon of 18 where 0.18 was meant, ppm typed as percent, contents that add up
 * to more than the whole. The ceilings only catch typing; what a method allows is the method's own business.
 */
import type { Content, Element } from './composition.ts';

/** Percent that no steel and no weld metal or hard-facing holds. Carbon: all of it bound as cementite is 6.67. */
const ceilingPercent: Readonly<Record<Element, number>> = {
  C: 6.7,
  Si: 16,
  Mn: 35,
  P: 1,
  S: 1,
  Cr: 50,
  Mo: 35,
  Ni: 90,
  Cu: 90,
  V: 20,
  Nb: 15,
  Ti: 10,
  B: 5,
  N: 2,
  Al: 15,
};

/** Certificates print some elements as whole numbers: hundredths, thousandths or parts per million of a percent. */
const printedAs: Readonly<Partial<Record<Element, readonly [divisor: number, unit: string]>>> = {
  P: [1000, 'thousandths of a percent'],
  S: [1000, 'thousandths of a percent'],
  B: [10_000, 'ppm'],
  N: [10_000, 'ppm'],
};

/** The slip in words, or undefined where the content is possible. */
export function contentSlip(element: Element, content: Content): string | undefined {
  if (content === 'not reported') return undefined;
  const value = typeof content === 'number' ? content : content.atMost;
  const ceiling = ceilingPercent[element];
  if (value <= ceiling) return undefined;
  const [divisor, unit] = printedAs[element] ?? [100, 'hundredths of a percent'];
  const meant = Number((value / divisor).toPrecision(6));
  return `at most ${ceiling} % of ${element}; if the certificate prints it in ${unit}, this is ${meant} %`;
}

/** Above 100 % in words, or undefined. A stated bound is not a content and does not count. */
export function sumAbove(contents: readonly Content[]): string | undefined {
  const sum = contents.reduce<number>((total, content) => total + (typeof content === 'number' ? content : 0), 0);
  if (sum <= 100) return undefined;
  return `contents that add up to 100 % or less; these make ${Number(sum.toFixed(3))} %, so at least one is mistyped`;
}
