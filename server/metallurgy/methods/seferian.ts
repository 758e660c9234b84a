/**
 * Séférian: preheat from a chemical equivalent and the thickness alone. There is no hydrogen, heat input or
 * restraint in it, so that it only compares. Second-hand, through a worked note that its formula reproduces.
 */
import type { WorkingInput, WorkingTerm } from '../answer.ts';
import type { Method, Outcome, PartFacts } from '../method.ts';

export const seferian: Method = {
  id: 'seferian',
  title: 'Séférian',
  edition: 'textbook of the 1950s',
  role: 'comparison only',
  codeSets: [],
  ferriticOnly: true,
  formula: 'Tp = 350·√(Ct − 0.25), Ct = Cc·(1 + 0.005·e); none, shown as 0, where Ct is 0.25 or less',
  needs: ['analysis with C, Mn, Cr, Ni, Mo', 'plate thickness'],
  range: [],
  source: 'Séférian, textbook of the metallurgy of welding',
  status: 'second-hand',
  work,
};

/** Ct of a chemical equivalent (percent) and a thickness in mm. */
export const totalEquivalent = (cc: number, e: number): number => cc * (1 + 0.005 * e);

/** Degrees Celsius of Ct; 0 where the method asks for no preheat. */
export const seferianCelsius = (ct: number): number => 350 * Math.sqrt(Math.max(0, ct - 0.25));

function work(facts: PartFacts): Outcome {
  const { part } = facts;
  const cc = facts.equivalent('Cc');
  const e: WorkingInput = { name: 'e', value: part.thicknessMillimetres, unit: 'mm', from: 'thickness of the part' };
  if (cc.value === undefined) {
    return { kind: 'asks', missing: [`${cc.missing.join(', ')} in the analysis of ${part.id}`], inputs: [e] };
  }
  const inputs = [{ name: 'Cc', value: cc.value, unit: '%', from: 'analysis of the part' }, e];
  if (cc.outOfRange.length > 0) {
    return { kind: 'refuses', reason: `${cc.outOfRange.join(', ')} (${cc.rangeOf})`, inputs };
  }
  const ct = totalEquivalent(cc.value, e.value);
  const terms: WorkingTerm[] = [{ name: 'Ct', formula: 'Cc·(1 + 0.005·e)', value: ct, unit: '%' }];
  return {
    kind: 'computes',
    celsius: seferianCelsius(ct),
    inputs,
    terms,
    flags: [],
    notes: ['takes no account of hydrogen, heat input or restraint: an indication'],
    extended: [],
  };
}
