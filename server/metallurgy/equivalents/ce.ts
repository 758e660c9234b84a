/** CE of the International Institute of Welding (1967), as EN 1011-2:2001 method A uses it. */
import type { EquivalentDefinition } from '../equivalent.ts';

export const ce: EquivalentDefinition = {
  id: 'CE',
  name: 'carbon equivalent CE (IIW)',
  formula: 'C + Mn/6 + (Cr + Mo + V)/5 + (Ni + Cu)/15',
  needs: ['C', 'Mn', 'Cr', 'Mo', 'V', 'Ni', 'Cu'],
  compute: (of) => of('C') + of('Mn') / 6 + (of('Cr') + of('Mo') + of('V')) / 5 + (of('Ni') + of('Cu')) / 15,
  range: {
    C: [0.05, 0.25],
    Si: [0, 0.8],
    Mn: [0, 1.7],
    Cr: [0, 0.9],
    Cu: [0, 1.0],
    Ni: [0, 2.5],
    Mo: [0, 0.75],
    V: [0, 0.2],
  },
  rangeOf: 'range of EN 1011-2 method A, from memory',
  source: 'IIW 1967; EN 1011-2:2001 method A',
  status: 'verified',
};
