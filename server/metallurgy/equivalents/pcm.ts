/** Pcm of Ito and Bessyo (1968). Boron counts five times, so that a boron that is not reported is not nothing. */
import type { EquivalentDefinition } from '../equivalent.ts';

export const pcm: EquivalentDefinition = {
  id: 'Pcm',
  name: 'cracking parameter Pcm (Ito and Bessyo)',
  formula: 'C + Si/30 + (Mn + Cu + Cr)/20 + Ni/60 + Mo/15 + V/10 + 5·B',
  needs: ['C', 'Si', 'Mn', 'Cu', 'Cr', 'Ni', 'Mo', 'V', 'B'],
  compute: (of) =>
    of('C') +
    of('Si') / 30 +
    (of('Mn') + of('Cu') + of('Cr')) / 20 +
    of('Ni') / 60 +
    of('Mo') / 15 +
    of('V') / 10 +
    5 * of('B'),
  range: {
    C: [0.07, 0.22],
    Si: [0, 0.6],
    Mn: [0.4, 1.4],
    Cu: [0, 0.5],
    Ni: [0, 1.2],
    Cr: [0, 1.2],
    Mo: [0, 0.7],
    V: [0, 0.12],
    Nb: [0, 0.04],
    Ti: [0, 0.05],
    B: [0, 0.005],
  },
  rangeOf: 'range of Ito and Bessyo, from memory',
  source: 'Ito and Bessyo 1968; AWS D1.1 hydrogen control; API 5L',
  status: 'verified',
};
