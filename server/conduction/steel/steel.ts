/**
 * How a kind of steel conducts and stores heat: polynomials of the temperature, since + - x / come out the same on
 * every machine. Each kind is one small file beside this and a line in list.ts, with its source and status.
 */
export interface Steel {
  readonly id: string;
  readonly name: string;
  /** k0 + k1 T in W/(m K), T in degrees Celsius. */
  readonly conductivity: readonly [number, number];
  /** c0 + c1 T + c2 T^2 + c3 T^3 in J/(kg K). */
  readonly heatCapacity: readonly [number, number, number, number];
  /** kg/m3; taken as the same at every temperature. */
  readonly density: number;
  /** Colder metal counts as metal of this temperature; hotter than the highest is refused. */
  readonly lowestCelsius: number;
  readonly highestCelsius: number;
  /** Spread between grades of this kind, as a part of the diffusivity either way. */
  readonly diffusivityBand: number;
  readonly source: string;
  readonly status: 'verified' | 'second-hand' | 'from memory' | 'entered';
}

/** W/(m K). Inside the range of the steel only; colder counts as the lowest temperature. */
export function conductivityAt(steel: Steel, celsius: number): number {
  const [k0, k1] = steel.conductivity;
  return k0 + k1 * Math.max(celsius, steel.lowestCelsius);
}

/** J/(m3 K). */
export function capacityAt(steel: Steel, celsius: number): number {
  const [c0, c1, c2, c3] = steel.heatCapacity;
  const at = Math.max(celsius, steel.lowestCelsius);
  return steel.density * (c0 + at * (c1 + at * (c2 + at * c3)));
}

/** Heat stored above 0 degrees Celsius in J/m3: the integral of the capacity, so that no heat is lost to its change. */
export function heatAt(steel: Steel, celsius: number): number {
  const [c0, c1, c2, c3] = steel.heatCapacity;
  const at = Math.max(celsius, steel.lowestCelsius);
  const heat = at * (c0 + at * (c1 / 2 + at * (c2 / 3 + (at * c3) / 4)));
  const below = (celsius - at) * (c0 + at * (c1 + at * (c2 + at * c3)));
  return steel.density * (heat + below);
}

/** m2/s. */
export const diffusivityAt = (steel: Steel, celsius: number): number =>
  conductivityAt(steel, celsius) / capacityAt(steel, celsius);
