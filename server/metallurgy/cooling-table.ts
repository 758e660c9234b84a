/**
 * Cooling time and allowed heat input at one part over the temperatures that a run may begin at. The hotter the
 * part, the slower it cools: the lower end of a window binds at the minimum preheat, the upper end at the maximum
 * interpass temperature.
 */
import type { Joint } from '../weld/joint.ts';
import type { Part } from '../weld/part.ts';
import {
  type CoolingConditions,
  coolingSeconds,
  heatInputFor,
  highestCoolingCelsius,
  transitionMillimetres,
} from './cooling-time.ts';
import { steady } from './number.ts';
import type { ShapeFactors } from './shape-factor.ts';
import { type Span, spanOf } from './span.ts';

export interface CoolingRow {
  readonly celsius: number;
  readonly at: 'minimum preheat' | 'between' | 'above the minimum' | 'maximum interpass';
  /** Absent where the heat input is not known. */
  readonly found?: {
    readonly seconds: Span;
    readonly transitionMillimetres: Span;
    /** Which formula gives the larger time; 'either' where the ends of the shape factor disagree. */
    readonly flow: 'three-dimensional' | 'two-dimensional' | 'either';
    /** Against the window of the joint, both ends inside. Absent without a window. */
    readonly window?: 'inside' | 'too fast' | 'too slow' | 'wider than the window';
  };
  /** kJ/mm that keep the window at this temperature, whatever end of the shape factor holds. Absent without a window. */
  readonly allowed?: HeatInputWindow;
}

/** `minimum` above `maximum` means that no heat input keeps the window. */
export interface HeatInputWindow {
  readonly minimum: number;
  readonly maximum: number;
}

export function coolingRows(
  joint: Joint,
  part: Part,
  minimumCelsius: number,
  heatInput: number | undefined,
  shape: ShapeFactors,
): readonly CoolingRow[] {
  return temperatures(minimumCelsius, joint.procedure?.interpassMaximumCelsius).map(({ celsius, at }) => {
    const ends = endsOf(part, celsius, shape);
    const window = joint.coolingSeconds;
    return {
      celsius,
      at,
      ...(heatInput === undefined ? {} : { found: found(part, ends, heatInput, window) }),
      ...(window === undefined ? {} : { allowed: heatInputWindow(ends, window) }),
    };
  });
}

/** One set of conditions for each end of the shape factor: one where its ends are equal. */
export function endsOf(part: Part, celsius: number, { two, three }: ShapeFactors): readonly CoolingConditions[] {
  const factors = two.lowest === two.highest ? [two.lowest] : [two.lowest, two.highest];
  return factors.map((shapeTwo) => ({
    celsius,
    thicknessMillimetres: part.thicknessMillimetres,
    shapeTwo,
    shapeThree: three,
  }));
}

/** The heat inputs that stay inside the window under every one of the conditions. */
export function heatInputWindow(
  ends: readonly CoolingConditions[],
  { minimum, maximum }: NonNullable<Joint['coolingSeconds']>,
): HeatInputWindow {
  return {
    minimum: Math.max(...ends.map((at) => heatInputFor(at, minimum))),
    maximum: Math.min(...ends.map((at) => heatInputFor(at, maximum))),
  };
}

/** What one heat input must keep at both ends: enough at the coldest run, not too much at the hottest. */
export const windowOverRows = (rows: readonly CoolingRow[]): HeatInputWindow | undefined => {
  const allowed = rows.flatMap((row) => (row.allowed === undefined ? [] : [row.allowed]));
  if (allowed.length === 0) return undefined;
  return {
    minimum: Math.max(...allowed.map((one) => one.minimum)),
    maximum: Math.min(...allowed.map((one) => one.maximum)),
  };
};

function found(
  part: Part,
  ends: readonly CoolingConditions[],
  heatInput: number,
  window: Joint['coolingSeconds'],
): NonNullable<CoolingRow['found']> {
  const seconds = spanOf(ends.map((at) => coolingSeconds(at, heatInput)));
  const transition = spanOf(ends.map((at) => transitionMillimetres(at, heatInput)));
  const thickness = part.thicknessMillimetres;
  return {
    seconds,
    transitionMillimetres: transition,
    flow:
      thickness >= transition.highest
        ? 'three-dimensional'
        : thickness < transition.lowest
          ? 'two-dimensional'
          : 'either',
    ...(window === undefined ? {} : { window: against(seconds, window) }),
  };
}

function against(
  { lowest, highest }: Span,
  { minimum, maximum }: NonNullable<Joint['coolingSeconds']>,
): 'inside' | 'too fast' | 'too slow' | 'wider than the window' {
  const fast = steady(lowest) < minimum;
  const slow = steady(highest) > maximum;
  if (fast && slow) return 'wider than the window';
  return fast ? 'too fast' : slow ? 'too slow' : 'inside';
}

/** Quarters of the way up to a stated maximum interpass temperature; else two steps of 50 °C. All below 500 °C. */
function temperatures(minimum: number, maximum: number | undefined): Pick<CoolingRow, 'celsius' | 'at'>[] {
  const first = { celsius: minimum, at: 'minimum preheat' as const };
  const further: Pick<CoolingRow, 'celsius' | 'at'>[] =
    maximum === undefined
      ? [50, 100].map((more) => ({ celsius: minimum + more, at: 'above the minimum' }))
      : maximum <= minimum
        ? []
        : [
            ...[0.25, 0.5, 0.75].map((way) => ({
              celsius: minimum + way * (maximum - minimum),
              at: 'between' as const,
            })),
            { celsius: maximum, at: 'maximum interpass' },
          ];
  return [first, ...further.filter(({ celsius }) => celsius < highestCoolingCelsius)];
}
