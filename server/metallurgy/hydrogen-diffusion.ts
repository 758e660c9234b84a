/**
 * Diffusible hydrogen that is left in a plate after a time at a temperature. Published diffusivities of steel
 * differ by more than a hundredfold at room temperature, so the answer is always a range between two of them.
 *
 * The plate begins with the same content everywhere, which asks for more time than the layer of one bead does.
 */
import { type Span, spanOf } from './span.ts';

export interface DiffusivityBound {
  readonly name: string;
  readonly formula: string;
  /** Square metres a second at degrees Celsius. */
  readonly squareMetresPerSecond: (celsius: number) => number;
  readonly fromCelsius: number;
  readonly toCelsius: number;
  readonly source: string;
  readonly status: 'verified' | 'second-hand';
}

export const diffusivityBounds: readonly DiffusivityBound[] = [
  {
    name: 'microalloyed and low-carbon steel',
    formula: 'D = 8.8·10⁻¹¹·T^2.2285 cm²/s, T in °C',
    squareMetresPerSecond: (celsius) => 8.8e-15 * celsius ** 2.2285,
    fromCelsius: 20,
    toCelsius: 200,
    source:
      'Böllinghaus et al., Welding in the World 35 (1995); which bound of the published band it is, is not certain',
    status: 'second-hand',
  },
  {
    name: 'pure iron, extrapolated',
    formula: 'log10 D = −3.67 − 1438/(4.575·T) cm²/s, T in K',
    squareMetresPerSecond: (celsius) => 1e-4 * 10 ** (-3.67 - 1438 / (4.575 * (celsius + 273.15))),
    fromCelsius: 25,
    toCelsius: 300,
    source: 'Koenig and Lange, Arch. Eisenhüttenwes. 46 (1975) 669',
    status: 'verified',
  },
];

/** Outside these no diffusivity is computed at all: 427 °C (800 °F) is where post-heating ends (AWS D10.10:2021). */
const lowestDiffusionCelsius = 20;
export const highestDiffusionCelsius = 427;

export interface ResidualHydrogen {
  readonly celsius: number;
  readonly hours: number;
  readonly thicknessMillimetres: number;
  /** Share of the first content that is left, 0 to 1: mean over the plate, and at its middle. */
  readonly mean: Span;
  readonly middle: Span;
  /** In words: which diffusivity is used beyond its range. */
  readonly flags: readonly string[];
}

/** A plate with both faces free. Undefined outside 20 to 427 °C. */
export function residualHydrogen(
  thicknessMillimetres: number,
  celsius: number,
  hours: number,
): ResidualHydrogen | undefined {
  if (celsius < lowestDiffusionCelsius || celsius > highestDiffusionCelsius) return undefined;
  const half = thicknessMillimetres / 2000;
  const taus = diffusivityBounds.map((bound) => (bound.squareMetresPerSecond(celsius) * hours * 3600) / half ** 2);
  return {
    celsius,
    hours,
    thicknessMillimetres,
    mean: spanOf(taus.map(meanLeft)),
    middle: spanOf(taus.map(middleLeft)),
    flags: diffusivityBounds
      .filter(({ fromCelsius, toCelsius }) => celsius < fromCelsius || celsius > toCelsius)
      .map(
        ({ name, fromCelsius, toCelsius }) =>
          `the diffusivity of ${name} is published for ${fromCelsius} to ${toCelsius} °C and is extrapolated here`,
      ),
  };
}

/**
 * Mean share left at tau = D·t/l², l the half thickness. Below 0.05 the short-time form, whose error there is below
 * 1e-10; above, the series, whose first dropped term is below 1e-80 (Crank; from memory).
 */
export function meanLeft(tau: number): number {
  if (tau < 0.05) return 1 - 2 * Math.sqrt(tau / Math.PI);
  return (8 / Math.PI ** 2) * series((odd) => decay(odd, tau) / odd ** 2);
}

/** Share left at the middle. Below 0.01 the middle has not noticed the faces: 1, with an error below 1e-11. */
export function middleLeft(tau: number): number {
  if (tau < 0.01) return 1;
  return (4 / Math.PI) * series((odd, index) => ((index % 2 === 0 ? 1 : -1) * decay(odd, tau)) / odd);
}

const terms = 30;

const series = (term: (odd: number, index: number) => number): number =>
  Array.from({ length: terms }, (_, index) => term(2 * index + 1, index)).reduce((sum, one) => sum + one, 0);

const decay = (odd: number, tau: number): number => Math.exp((-(odd ** 2) * Math.PI ** 2 * tau) / 4);
