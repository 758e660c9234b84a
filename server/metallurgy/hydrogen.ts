/**
 * Diffusible hydrogen of the deposited metal, ml per 100 g (ISO 3690). A class counts as its upper bound:
 * H5, H10, H15 of the ISO consumable standards; H2, H4, H8, H16 of the AWS ones.
 */
import type { Joint } from '../weld/joint.ts';
import type { Fact } from './fact.ts';

export function hydrogen(joint: Joint): Fact {
  const stated = joint.consumable.hydrogen;
  if (stated === 'not stated') {
    return { known: false, ask: 'the diffusible hydrogen of the consumable: its class (H5, H10, ...) or ml/100 g' };
  }
  const value = 'class' in stated ? Number(stated.class.slice(1)) : stated.millilitresPer100Grams;
  const from = 'class' in stated ? `upper bound of class ${stated.class}` : 'stated for the consumable';
  return { known: true, input: { name: 'HD', value, unit: 'ml/100 g', from } };
}
