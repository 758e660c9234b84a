/**
 * EN 1011-2:2001 + A1:2003, annex C.3, "method B": minimum preheat from CET, plate thickness d (not the
 * combined thickness), diffusible hydrogen HD and heat input Q (with its efficiency k). From SEW 088.
 *
 * The thickness term has all but ended at 90 mm (1.9 K from there to infinity), so that beyond it the number is
 * stable but not validated: extended. Every other way out of the range gives no number.
 */
import type { Equivalent, WorkingInput, WorkingTerm } from '../answer.ts';
import type { Method, Outcome, PartFacts } from '../method.ts';
import { plain, steady } from '../number.ts';
import { outside, type Range } from '../range.ts';

/** All in the unit of the formula: percent, mm, ml/100 g, kJ/mm. */
export interface MethodBInputs {
  readonly cet: number;
  readonly d: number;
  readonly hd: number;
  readonly q: number;
}

const range: readonly Range[] = [
  bound('CET', 'CET', '%', 0.2, 0.5),
  { ...bound('plate thickness', 'd', 'mm', 10, 90), above: 'extended' },
  bound('diffusible hydrogen', 'HD', 'ml/100 g', 1, 20),
  bound('heat input', 'Q', 'kJ/mm', 0.5, 4.0),
];

export const en10112MethodB: Method = {
  id: 'en-1011-2-method-b',
  title: 'EN 1011-2 method B (CET)',
  edition: 'EN 1011-2:2001 + A1:2003, C.3',
  role: 'may govern',
  // The piping codes set a floor and leave the calculation open.
  codeSets: ['EN 1011-2', 'ASME B31.3:2014', 'ASME B31.3:2010', 'ASME B31.1'],
  ferriticOnly: true,
  formula: 'Tp = 697·CET + 160·tanh(d/35) + 62·HD^0.35 + (53·CET − 32)·Q − 328',
  needs: ['analysis with C, Mn, Mo, Cr, Cu, Ni', 'plate thickness', 'diffusible hydrogen', 'heat input'],
  range,
  source: 'EN 1011-2:2001 + A1:2003, annex C.3; SEW 088 (Uwer and Höhne)',
  status: 'second-hand',
  work,
};

/** The four addends that the standard gives apart; their sum is the formula in one. Degrees Celsius. */
export function methodBTerms({ cet, d, hd, q }: MethodBInputs): readonly WorkingTerm[] {
  return [
    term('CET', '750·CET − 150', 750 * cet - 150),
    term('thickness', '160·tanh(d/35) − 110', 160 * Math.tanh(d / 35) - 110),
    term('hydrogen', '62·HD^0.35 − 100', 62 * hd ** 0.35 - 100),
    term('heat input', '(53·CET − 32)·Q − 53·CET + 32', (53 * cet - 32) * q - 53 * cet + 32),
  ];
}

function work(facts: PartFacts): Outcome {
  const { part, hydrogen, heatInput } = facts;
  const parent = facts.equivalent('CET');
  const d: WorkingInput = { name: 'd', value: part.thicknessMillimetres, unit: 'mm', from: 'thickness of the part' };
  const missing = [
    ...(parent.missing.length > 0 ? [`${parent.missing.join(', ')} in the analysis of ${part.id}`] : []),
    ...(hydrogen.known ? [] : [hydrogen.ask]),
    ...(heatInput.known ? [] : [heatInput.ask]),
  ];
  if (parent.value === undefined || !hydrogen.known || !heatInput.known) {
    return { kind: 'asks', missing, inputs: [d, ...known(hydrogen), ...known(heatInput)] };
  }
  const { cet, flags } = governingCet(parent.value, facts.weldMetal('CET'));
  const inputs = [cet, d, hydrogen.input, heatInput.input];
  const values = { CET: cet.value, d: d.value, HD: hydrogen.input.value, Q: heatInput.input.value };
  const left = outside(range, values);
  const refused = [...composition(parent), ...left.filter((one) => one.grade === 'refused').map((one) => one.words)];
  if (refused.length > 0) return { kind: 'refuses', reason: refused.join('; '), inputs };
  const terms = methodBTerms({ cet: values.CET, d: values.d, hd: values.HD, q: values.Q });
  return {
    kind: 'computes',
    celsius: terms.reduce((sum, one) => sum + one.value, 0),
    inputs,
    terms,
    flags: [...flags, ...uncheckedFlag(parent)],
    extended: left.map((one) => one.words),
  };
}

/**
 * The parent metal governs if its CET is at least 0.03 above the weld metal's, else the weld metal's CET plus
 * 0.03 (rule from memory). Without an analysis of the weld metal the parent's is used, and said so.
 */
function governingCet(parent: number, weldMetal: Equivalent | undefined): { cet: WorkingInput; flags: string[] } {
  const input = (value: number, from: string): WorkingInput => ({ name: 'CET', value, unit: '%', from });
  const weld = weldMetal?.value;
  if (weld === undefined) {
    const lack = weldMetal === undefined ? 'is not given' : `lacks ${weldMetal.missing.join(', ')}`;
    return {
      cet: input(parent, 'parent metal'),
      flags: [`the analysis of the weld metal ${lack}; the CET of the parent metal is used alone`],
    };
  }
  const compared = `parent ${plain(parent)}, weld metal ${plain(weld)}; rule from memory`;
  if (steady(parent - weld) >= 0.03) {
    return {
      cet: input(parent, `parent metal, at least 0.03 above the weld metal (${compared})`),
      flags: [],
    };
  }
  return { cet: input(weld + 0.03, `weld metal plus 0.03 (${compared})`), flags: [] };
}

const composition = (parent: Equivalent): string[] =>
  parent.outOfRange.length === 0 ? [] : [`${parent.outOfRange.join(', ')} (${parent.rangeOf})`];

function uncheckedFlag(parent: Equivalent): string[] {
  if (parent.unchecked.length === 0) return [];
  return [`${parent.unchecked.join(', ')} not reported: the range of composition is not fully checked`];
}

function bound(quantity: string, symbol: string, unit: string, minimum: number, maximum: number): Range {
  return { quantity, symbol, unit, minimum, maximum, below: 'refused', above: 'refused', status: 'second-hand' };
}

const term = (name: string, formula: string, value: number): WorkingTerm => ({ name, formula, value, unit: '°C' });
const known = (fact: PartFacts['hydrogen']): WorkingInput[] => (fact.known ? [fact.input] : []);
