/**
 * How far a new thermocouple wire may be off its reference function, plus or minus, with its cold end at 0 °C: the
 * greater of a constant and a share of the temperature. IEC 60584-1:2013 and ASTM E230 (verified on two tables each;
 * R and S of class 1 and E230 below 0 °C from memory). Wire that has aged or lies across steep gradients can be worse.
 */
import type { ThermocoupleType } from '../measure/thermocouple.ts';
import type { ToleranceClass } from '../weld/instrument.ts';

export type WireClass = Exclude<ToleranceClass, `IEC 60584-3 ${string}`>;

/** Half width in kelvin at the temperature in degrees Celsius; undefined where the class states none for the type there. */
export function wireTolerance(type: ThermocoupleType, wireClass: WireClass, celsius: number): number | undefined {
  const rows = tables[wireClass][type] ?? [];
  const row = rows.find(({ from, to }) => celsius >= from && celsius <= to);
  if (row === undefined) return undefined;
  return Math.max(
    row.kelvin,
    row.share * Math.abs(celsius - (row.beyond ?? 0)) + (row.beyond === undefined ? 0 : row.kelvin),
  );
}

/** The wider of the two ordinary classes: what a wire whose class is not known is taken at. */
export function widestWireTolerance(type: ThermocoupleType, celsius: number): { kelvin: number; named: WireClass } {
  const found = ordinary.map((named) => ({ named, kelvin: nearestTolerance(type, named, celsius) }));
  return found.toSorted((a, b) => b.kelvin - a.kelvin)[0]!;
}

const ordinary = ['IEC 60584-1 class 2', 'ASTM E230 standard'] as const satisfies readonly WireClass[];

/** Outside the range of the class: its value at the nearer end. */
function nearestTolerance(type: ThermocoupleType, wireClass: WireClass, celsius: number): number {
  const rows = tables[wireClass][type]!;
  const lowest = Math.min(...rows.map(({ from }) => from));
  const highest = Math.max(...rows.map(({ to }) => to));
  return wireTolerance(type, wireClass, Math.min(highest, Math.max(lowest, celsius)))!;
}

interface Row {
  readonly kelvin: number;
  readonly share: number;
  /** The share counts from here on and comes on top of the constant. */
  readonly beyond?: number;
  readonly from: number;
  readonly to: number;
}

const row = (kelvin: number, share: number, from: number, to: number): Row => ({ kelvin, share, from, to });
const noble = [row(1, 0, 0, 1100), { kelvin: 1, share: 0.003, beyond: 1100, from: 1100, to: 1600 }];

const tables: Readonly<Record<WireClass, Readonly<Partial<Record<ThermocoupleType, readonly Row[]>>>>> = {
  'IEC 60584-1 class 1': {
    K: [row(1.5, 0.004, -40, 1000)],
    N: [row(1.5, 0.004, -40, 1000)],
    J: [row(1.5, 0.004, -40, 750)],
    E: [row(1.5, 0.004, -40, 800)],
    T: [row(0.5, 0.004, -40, 350)],
    R: noble,
    S: noble,
  },
  'IEC 60584-1 class 2': {
    K: [row(2.5, 0.0075, -40, 1200)],
    N: [row(2.5, 0.0075, -40, 1200)],
    J: [row(2.5, 0.0075, -40, 750)],
    E: [row(2.5, 0.0075, -40, 900)],
    T: [row(1, 0.0075, -40, 350)],
    R: [row(1.5, 0.0025, 0, 1600)],
    S: [row(1.5, 0.0025, 0, 1600)],
    B: [row(0, 0.0025, 600, 1700)],
  },
  'IEC 60584-1 class 3': {
    K: [row(2.5, 0.015, -200, 40)],
    N: [row(2.5, 0.015, -200, 40)],
    E: [row(2.5, 0.015, -200, 40)],
    T: [row(1, 0.015, -200, 40)],
    B: [row(4, 0.005, 600, 1700)],
  },
  'ASTM E230 standard': {
    K: [row(2.2, 0.0075, 0, 1260), row(2.2, 0.02, -200, 0)],
    N: [row(2.2, 0.0075, 0, 1260)],
    J: [row(2.2, 0.0075, 0, 760)],
    T: [row(1, 0.0075, 0, 370), row(1, 0.015, -200, 0)],
    E: [row(1.7, 0.005, 0, 870), row(1.7, 0.01, -200, 0)],
    R: [row(1.5, 0.0025, 0, 1480)],
    S: [row(1.5, 0.0025, 0, 1480)],
    B: [row(0, 0.005, 870, 1700)],
  },
  'ASTM E230 special': {
    K: [row(1.1, 0.004, 0, 1260)],
    N: [row(1.1, 0.004, 0, 1260)],
    J: [row(1.1, 0.004, 0, 760)],
    T: [row(0.5, 0.004, 0, 370)],
    E: [row(1, 0.004, 0, 870)],
    R: [row(0.6, 0.001, 0, 1480)],
    S: [row(0.6, 0.001, 0, 1480)],
    B: [row(0, 0.0025, 870, 1700)],
  },
};
