/** Austenitic stainless steel as EN 1993-1-2 gives it in Annex C. */
import type { Steel } from './steel.ts';

export const austeniticSteel: Steel = {
  id: 'austenitic',
  name: 'austenitic stainless steel',
  conductivity: [14.6, 0.0127],
  heatCapacity: [450, 0.28, -2.91e-4, 1.34e-7],
  density: 7850,
  lowestCelsius: 20,
  highestCelsius: 600,
  diffusivityBand: 0.2,
  source: 'EN 1993-1-2:2005, Annex C; real density is 7900 to 8000',
  status: 'from memory',
};
