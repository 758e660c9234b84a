/** CE with silicon, as the hardness control of AWS D1.1 uses it: the IIW formula and a sixth of the silicon. */
import type { EquivalentDefinition } from '../equivalent.ts';
import { ce } from './ce.ts';

export const ceSi: EquivalentDefinition = {
  id: 'CE-Si',
  name: 'carbon equivalent CE with silicon (AWS D1.1)',
  formula: 'C + (Mn + Si)/6 + (Cr + Mo + V)/5 + (Ni + Cu)/15',
  needs: ['C', 'Si', 'Mn', 'Cr', 'Mo', 'V', 'Ni', 'Cu'],
  compute: (of) => ce.compute(of) + of('Si') / 6,
  range: {},
  rangeOf: 'no range of composition is known',
  source: 'AWS D1.1, annex on alternative methods for preheat',
  status: 'verified',
};
