/**
 * The checks that are commonly made before thick steel is preheated, to be chosen from: common practice under ISO 3834
 * (from memory). Each is there because heat or cracking hangs on it. None is asked for unless the procedure takes it over,
 * and what blocks in it is a proposal.
 */
import type { Check, Point } from './checks.ts';

/** The one whose answer says that the surface was dry, and with its note what the weather was. */
export const weatherCheck = 'clean';

export const usualChecks: readonly Check[] = [
  { id: 'preparation', text: 'Joint preparation and fit-up to the drawing', weight: 'blocks' },
  { id: 'material', text: 'Base metal and heat number against the certificate', weight: 'blocks' },
  { id: weatherCheck, text: 'Joint clean and dry, no condensation', weight: 'blocks' },
  {
    id: 'consumables',
    text: 'Electrodes or wire and flux as stated: batch, hydrogen class, stored and rebaked right',
    weight: 'blocks',
  },
  {
    id: 'equipment',
    text: 'Equipment safe: cables, earth, gas, ventilation, burns and fire guarded',
    weight: 'blocks',
  },
  { id: 'heating', text: 'Heaters in place, wide enough, and in order', weight: 'warns' },
  { id: 'measuring', text: 'Probes and instruments at their places, in calibration', weight: 'warns' },
  { id: 'welder', text: 'Welder qualified for this procedure', weight: 'blocks', role: 'coordinator' },
];

/** A point that many inspection plans have, offered beside them. */
export const usualPoint: Point = {
  id: 'H1',
  text: 'Release for welding',
  kind: 'hold',
  before: 'first pass',
  role: 'inspector',
};
