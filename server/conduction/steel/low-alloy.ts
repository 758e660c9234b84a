/** Low-alloy steel: 1 to 2.25 % Cr with Mo, and quenched and tempered plate. Conducts less than carbon steel, and evenly. */
import type { Steel } from './steel.ts';

export const lowAlloySteel: Steel = {
  id: 'low-alloy',
  name: 'low-alloy steel (1 to 2.25 Cr-Mo, quenched and tempered)',
  // 33 to 45 W/(m K) at 20 and 36 to 42 at 200 to 300 degrees: the middle of both.
  conductivity: [39, 0],
  heatCapacity: [425, 0.773, -1.69e-3, 2.22e-6],
  density: 7850,
  lowestCelsius: 20,
  highestCelsius: 600,
  diffusivityBand: 0.2,
  source:
    'handbook values of conductivity; heat capacity of EN 1993-1-2, which it follows within 5 % up to 500 degrees',
  status: 'from memory',
};
