/**
 * What the far face gives away to the air when nobody measures it: a convection constant and radiation, for the best,
 * the likely and the worst case of what is known of it. Total coefficients at 150 degrees: still air 12 to 16, draught
 * 25 to 40 W/(m2 K). Source: heat-transfer texts for emissivities (0.6 to 0.95 of oxidised plate, verified) and for
 * natural convection of plates (up to 8 W/(m2 K) at 300 degrees, from memory); the choice among them is our own.
 */
import type { FarSide } from '../weld/part.ts';

export type FarCondition = FarSide;

export interface Loss {
  /** W/(m2 K). */
  readonly convection: number;
  /** Part of black radiation. */
  readonly emissivity: number;
}

export interface LossCases {
  readonly best: Loss;
  readonly likely: Loss;
  readonly worst: Loss;
}

const none: Loss = { convection: 0, emissivity: 0 };
const stillAir: Loss = { convection: 6, emissivity: 0.8 };
const draught: Loss = { convection: 25, emissivity: 0.9 };

const cases: { readonly [condition in Exclude<FarCondition, 'colder mass or fluid'>]: LossCases } = {
  // 25 mm of a blanket of 0.05 W/(m K) lets 2 W/(m2 K) through.
  insulated: { best: none, likely: none, worst: { convection: 2, emissivity: 0 } },
  'still air': { best: none, likely: stillAir, worst: { convection: 8, emissivity: 0.95 } },
  draught: { best: none, likely: { convection: 16, emissivity: 0.8 }, worst: draught },
  // A face of which nothing is known counts as one in a draught.
  unknown: { best: none, likely: stillAir, worst: draught },
};

/** Undefined where no coefficient can be named: a colder mass or a fluid takes what it likes, and a probe must say how much. */
export const lossCasesOf = (condition: FarCondition): LossCases | undefined =>
  condition === 'colder mass or fluid' ? undefined : cases[condition];

/** Least and most that bare steel loses when it is left to cool; the heater taken away. */
export const coolingCases: LossCases = { best: stillAir, likely: { convection: 12, emissivity: 0.8 }, worst: draught };
