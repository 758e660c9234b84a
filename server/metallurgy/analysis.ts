/**
 * What the papers of one metal say of one element. "Not reported" stays missing. A gap in one analysis may be
 * closed by another analysis of the same metal only: the same heat, or no heat stated on one of the two.
 */
import type { Analysis, Element } from '../weld/composition.ts';
import type { WorkingInput } from './answer.ts';

/** The content that counts for this analysis, or undefined where no paper of this metal gives it. */
export function content(analysis: Analysis, all: readonly Analysis[], element: Element): WorkingInput | undefined {
  const own = reported(analysis, all, element);
  if (own !== undefined) return own;
  const others = all
    .filter((other) => other !== analysis && sameMetal(analysis, other))
    .map((other) => reported(other, all, element))
    .filter((input) => input !== undefined);
  const highest = others.reduce<WorkingInput | undefined>(
    (most, input) => (most === undefined || input.value > most.value ? input : most),
    undefined,
  );
  if (highest === undefined) return undefined;
  return { ...highest, from: `${highest.from}; ${analysisName(analysis, all)} does not report it` };
}

/** "heat certificate 4711", with its number among several where it has no certificate number. */
export function analysisName(analysis: Analysis, all: readonly Analysis[]): string {
  if (analysis.certificate !== undefined) return `${analysis.origin} ${analysis.certificate}`;
  if (analysis.heat !== undefined) return `${analysis.origin}, heat ${analysis.heat}`;
  return all.length > 1 ? `${analysis.origin} (analysis ${all.indexOf(analysis) + 1})` : analysis.origin;
}

/** A stated bound counts as its upper end: every formula here rises with every element. */
function reported(analysis: Analysis, all: readonly Analysis[], element: Element): WorkingInput | undefined {
  const stated = analysis.percent[element];
  if (stated === undefined || stated === 'not reported') return undefined;
  const from = analysisName(analysis, all);
  if (typeof stated === 'number') return { name: element, value: stated, unit: '%', from };
  return { name: element, value: stated.atMost, unit: '%', from: `stated bound, at most ${stated.atMost} % (${from})` };
}

const sameMetal = (a: Analysis, b: Analysis): boolean =>
  a.heat === undefined || b.heat === undefined || a.heat === b.heat;
