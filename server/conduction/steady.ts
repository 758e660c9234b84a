/** What a wall comes to in the end, in closed form: the surface that has to be held for a far face to be warm enough. */
import type { MilliCelsius } from '../measure/quantity.ts';
import { filmOf } from './face-link.ts';
import { farLossAhead } from './faces.ts';
import type { FarLoss } from './far-loss.ts';
import { areaAt, fieldConductivity, losing } from './field.ts';
import type { Loss } from './loss.ts';
import { type Section, wallsOf } from './section.ts';
import { capacityAt } from './steel/steel.ts';
import type { Wall } from './wall.ts';

/**
 * Held surface at which the worst case comes to that temperature at its coldest point, after a long time; rounded up.
 * With a conductivity k0 + k1 T the heat that the far face gives away, q, asks for k d + k1 d^2 / 2 = q times the
 * length of the wall, d kelvin above the far face; area that changes with the depth stands in that length. Undefined
 * where no surface within the properties is enough, or the far side takes what can not be named.
 */
export function surfaceNeededFor(now: Section, celsius: number, found?: FarLoss): MilliCelsius | undefined {
  let needed = celsius;
  for (const wall of wallsOf(now)) {
    const loss = farLossAhead(now, wall, found);
    const rise = loss && riseAcross(wall, loss, celsius);
    if (rise === undefined) return undefined;
    needed = Math.max(needed, celsius + rise + riseSideways(wall, celsius));
  }
  return needed <= now.spec.steel.highestCelsius ? (Math.ceil(needed * 1000) as MilliCelsius) : undefined;
}

/** Kelvin more for what leaves sideways now; that falls as the plate around gets warm. */
const riseSideways = ({ field }: Wall, celsius: number): number =>
  (Math.max(0, field.sideways) * capacityAt(field.steel, celsius) * field.depth * field.depth) /
  (2 * fieldConductivity(field, celsius));

/** Kelvin from the far face up to the front. */
function riseAcross({ field, ambientCelsius }: Wall, loss: Loss, backCelsius: number): number | undefined {
  const backArea = areaAt(field, field.depth);
  if (backArea === 0) return 0;
  const film = filmOf(losing(ambientCelsius, loss.convection, loss.emissivity), backCelsius);
  const through = film * (backCelsius - ambientCelsius) * backArea * lengthOf(field.depth, field.taper);
  const conductivity = fieldConductivity(field, backCelsius);
  const bend = field.conductivityFactor * field.steel.conductivity[1];
  const root = conductivity * conductivity + 2 * bend * through;
  return root < 0 ? undefined : (2 * through) / (conductivity + Math.sqrt(root));
}

/** The integral of depth over area, by Simpson's rule: the wall's length as heat feels it. */
export function lengthOf(depth: number, taper: number): number {
  const parts = 200;
  let sum = 0;
  for (let part = 0; part <= parts; part += 1) {
    const weight = part === 0 || part === parts ? 1 : part % 2 === 1 ? 4 : 2;
    sum += weight / (1 + (taper * depth * part) / parts);
  }
  return (sum * depth) / (3 * parts);
}
