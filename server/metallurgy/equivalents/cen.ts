/**
 * CEN of Yurioka (1983): between Pcm for low carbon and CE for high carbon, by the factor A(C). Nickel counts a
 * twentieth and copper a fifteenth, as the abstract of the paper has it; lists that print (Cu + Ni)/15 differ.
 */
import type { EquivalentDefinition } from '../equivalent.ts';

export const cen: EquivalentDefinition = {
  id: 'CEN',
  name: 'carbon equivalent CEN (Yurioka)',
  formula: 'C + A·(Si/24 + Mn/6 + Cu/15 + Ni/20 + (Cr + Mo + Nb + V)/5 + 5·B), A = 0.75 + 0.25·tanh(20·(C − 0.12))',
  needs: ['C', 'Si', 'Mn', 'Cu', 'Ni', 'Cr', 'Mo', 'Nb', 'V', 'B'],
  compute: (of) =>
    of('C') +
    accommodation(of('C')) *
      (of('Si') / 24 +
        of('Mn') / 6 +
        of('Cu') / 15 +
        of('Ni') / 20 +
        (of('Cr') + of('Mo') + of('Nb') + of('V')) / 5 +
        5 * of('B')),
  range: { C: [0.02, 0.26] },
  rangeOf: 'carbon of the test steels of the 1983 paper; it bounds no other element',
  source: 'Yurioka, Suzuki, Ohshita and Saito 1983',
  status: 'verified',
};

/** A(C), carbon in percent: 0.5 at very low carbon, 1 at high. Rises with carbon, so that CEN does too. */
export const accommodation = (carbon: number): number => 0.75 + 0.25 * Math.tanh(20 * (carbon - 0.12));
