/**
 * Chemical equivalent of Séférian. The textbook states no range of composition; the bound of 5 % is our own fence
 * (what is commonly called low-alloy steel), so that no high-alloy steel gets a number out of it.
 */
import type { EquivalentDefinition } from '../equivalent.ts';

const lowAlloy = [0, 5] as const;

export const seferianCc: EquivalentDefinition = {
  id: 'Cc',
  name: 'chemical equivalent Cc (Séférian)',
  formula: '(360·C + 40·(Mn + Cr) + 20·Ni + 28·Mo)/360',
  needs: ['C', 'Mn', 'Cr', 'Ni', 'Mo'],
  compute: (of) => (360 * of('C') + 40 * (of('Mn') + of('Cr')) + 20 * of('Ni') + 28 * of('Mo')) / 360,
  range: { Mn: lowAlloy, Cr: lowAlloy, Ni: lowAlloy, Mo: lowAlloy },
  rangeOf: 'no range is published; above 5 % of an element it is no low-alloy steel, and that fence is our own',
  source: 'Séférian, textbook of the metallurgy of welding',
  status: 'second-hand',
};
