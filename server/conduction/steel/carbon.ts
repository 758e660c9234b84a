/** Carbon and carbon-manganese steel as EN 1993-1-2 gives it for fire design. */
import type { Steel } from './steel.ts';

export const carbonSteel: Steel = {
  id: 'carbon',
  name: 'carbon steel',
  conductivity: [54, -0.0333],
  heatCapacity: [425, 0.773, -1.69e-3, 2.22e-6],
  density: 7850,
  lowestCelsius: 20,
  // The heat of the change of structure begins here; its peak lies at 735.
  highestCelsius: 600,
  diffusivityBand: 0.2,
  source: 'EN 1993-1-2:2005, 3.4.1; the band from published low-carbon grades, which lie up to 20 % above',
  status: 'verified',
};
