/**
 * The emulator's own steel: what a cubic metre stores and how well it conducts, as a table that was worked out once and
 * is read by straight lines. Heat is counted from the first row of the table. Whoever judges has figures of his own.
 */

export interface EmulatedSteel {
  /** J/m3. */
  enthalpyAt(celsius: number): number;
  celsiusOf(enthalpy: number): number;
  /** W/(m K), by what the steel has stored. */
  conductivityOf(enthalpy: number): number;
  /** Highest conductivity over capacity, m2/s: bounds the step in time. */
  readonly diffusivityMaximum: number;
}

/** Celsius, W/(m K), J/(kg K). */
type Row = readonly [celsius: number, conductivity: number, capacity: number];

/**
 * Plain carbon steel by the formulas of EN 1993-1-2, density 7850 kg/m3 (verified in several copies), here to one
 * decimal; below 20 degrees as at 20, above 1200 as at 1200. Nothing is taken up by melting.
 */
const carbonRows: readonly Row[] = [
  [-100, 53.33, 439.8],
  [20, 53.33, 439.8],
  [50, 52.34, 459.7],
  [100, 50.67, 487.6],
  [150, 49.01, 510.4],
  [200, 47.34, 529.8],
  [250, 45.68, 547.3],
  [300, 44.01, 564.7],
  [350, 42.35, 583.7],
  [400, 40.68, 605.9],
  [450, 39.02, 632.9],
  [500, 37.35, 666.5],
  [550, 35.69, 708.3],
  [600, 34.02, 760.2],
  [650, 32.36, 813.8],
  [700, 30.69, 1008.2],
  [720, 30.02, 1388.3],
  [730, 29.69, 2291.3],
  [735, 29.53, 5000],
  [740, 29.36, 2525],
  [750, 29.03, 1482.9],
  [800, 27.3, 803.3],
  [850, 27.3, 694.7],
  [900, 27.3, 650],
  [1200, 27.3, 650],
  [3000, 27.3, 650],
];

/** Entries of the inverse stand this far apart, J/m3: about a quarter of a degree. */
const apart = 1e6;

export const carbonSteel: EmulatedSteel = steelOf(carbonRows, 7850);

/** Steel whose figures do not change with temperature: what textbooks reckon with. W/(m K) and J/(m3 K). */
export const unchangingSteel = (conductivity: number, capacity: number): EmulatedSteel =>
  steelOf(
    [
      [-100, conductivity, capacity],
      [3000, conductivity, capacity],
    ],
    1,
  );

function steelOf(rows: readonly Row[], density: number): EmulatedSteel {
  const stored = storedAt(rows, density);
  const entries = Math.floor(stored.at(-1)! / apart) + 1;
  const celsius = new Float64Array(entries);
  const conductivity = new Float64Array(entries);
  for (let entry = 0, row = 0; entry < entries; entry += 1) {
    const enthalpy = entry * apart;
    while (row < rows.length - 2 && stored[row + 1]! <= enthalpy) row += 1;
    const [[from, k0, c0], [to, k1, c1]] = [rows[row]!, rows[row + 1]!];
    // Capacity rises by a straight line, what is stored by a parabola: this is its root, in the form that keeps digits.
    const more = (2 * (enthalpy - stored[row]!)) / density;
    const warmer = more / (c0 + Math.sqrt(c0 * c0 + ((c1 - c0) / (to - from)) * more));
    celsius[entry] = from + warmer;
    conductivity[entry] = k0 + ((k1 - k0) * warmer) / (to - from);
  }
  const read = (table: Float64Array, enthalpy: number): number => {
    const at = Math.min(Math.max(enthalpy / apart, 0), entries - 1.001);
    const entry = at | 0;
    const low = table[entry]!;
    return low + (at - entry) * (table[entry + 1]! - low);
  };
  return {
    enthalpyAt: (wanted) => {
      let row = 0;
      while (row < rows.length - 2 && rows[row + 1]![0] <= wanted) row += 1;
      const [[from, , c0], [to, , c1]] = [rows[row]!, rows[row + 1]!];
      const warmer = wanted - from;
      return stored[row]! + density * warmer * (c0 + ((c1 - c0) * warmer) / (to - from) / 2);
    },
    celsiusOf: (enthalpy) => read(celsius, enthalpy),
    conductivityOf: (enthalpy) => read(conductivity, enthalpy),
    diffusivityMaximum: Math.max(...rows.map(([, k, c]) => k / (density * c))),
  };
}

/** What is stored at each row, J/m3. */
function storedAt(rows: readonly Row[], density: number): readonly number[] {
  const stored = [0];
  for (let row = 1; row < rows.length; row += 1) {
    const [[from, , c0], [to, , c1]] = [rows[row - 1]!, rows[row]!];
    stored.push(stored[row - 1]! + (density * (to - from) * (c0 + c1)) / 2);
  }
  return stored;
}
