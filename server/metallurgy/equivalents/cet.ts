/** CET of Uwer and Höhne, which EN 1011-2:2001 method B (C.3) is built on. The range is that of method B. */
import type { EquivalentDefinition } from '../equivalent.ts';

export const cet: EquivalentDefinition = {
  id: 'CET',
  name: 'carbon equivalent CET',
  formula: 'C + (Mn + Mo)/10 + (Cr + Cu)/20 + Ni/40',
  needs: ['C', 'Mn', 'Mo', 'Cr', 'Cu', 'Ni'],
  compute: (of) => of('C') + (of('Mn') + of('Mo')) / 10 + (of('Cr') + of('Cu')) / 20 + of('Ni') / 40,
  range: {
    C: [0.05, 0.32],
    Si: [0, 0.8],
    Mn: [0.5, 1.9],
    Cr: [0, 1.5],
    Mo: [0, 0.75],
    Nb: [0, 0.06],
    Ti: [0, 0.12],
    V: [0, 0.18],
    Cu: [0, 0.7],
    Ni: [0, 2.5],
    B: [0, 0.005],
  },
  rangeOf: 'range of EN 1011-2 method B, from memory',
  source: 'Uwer and Höhne; SEW 088; EN 1011-2:2001 C.3',
  status: 'second-hand',
};
