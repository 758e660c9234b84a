/** Steel with 9 to 12 % chromium. */
import type { Steel } from './steel.ts';

export const chromiumSteel: Steel = {
  id: 'chromium',
  name: 'steel with 9 to 12 % chromium',
  // 24 to 28 W/(m K); with this the diffusivity at 150 degrees lies in the usual 6.5 to 7 mm2/s.
  conductivity: [27, 0],
  heatCapacity: [425, 0.773, -1.69e-3, 2.22e-6],
  density: 7850,
  lowestCelsius: 20,
  highestCelsius: 600,
  diffusivityBand: 0.2,
  source:
    'handbook values of conductivity; heat capacity of EN 1993-1-2, which it follows within 5 % up to 500 degrees',
  status: 'from memory',
};
