/**
 * The shapes of wall that heat goes through in one direction. The area that heat passes is a straight line of the
 * depth in all of them: even in a plate, growing or shrinking with the radius in a tube and a bar. So one number, the
 * taper, tells them apart: area at depth x = 1 + taper x, as a part of the front area. The front is where x is 0.
 */
import { bounds } from './bounds.ts';
import { type Refusal, refuse } from './refusal.ts';

export type Shape =
  | { readonly kind: 'plate'; readonly thicknessMillimetres: number }
  /** A tube; the front is the face that is heated and measured. */
  | {
      readonly kind: 'tube';
      readonly front: 'outside' | 'inside';
      readonly thicknessMillimetres: number;
      readonly outsideDiameterMillimetres: number;
    }
  /** A solid bar, heated from around; the back is its axis. */
  | { readonly kind: 'bar'; readonly diameterMillimetres: number };

/** Metres from the front to the back. */
export const depthOf = (shape: Shape): number =>
  (shape.kind === 'bar' ? shape.diameterMillimetres / 2 : shape.thicknessMillimetres) / 1000;

/** Per metre. */
export function taperOf(shape: Shape): number {
  if (shape.kind === 'plate') return 0;
  if (shape.kind === 'bar') return -1 / depthOf(shape);
  const outside = shape.outsideDiameterMillimetres / 2000;
  return shape.front === 'outside' ? -1 / outside : 1 / (outside - depthOf(shape));
}

/** Why the shape is not computed; undefined where it is. */
export function shapeRefused(shape: Shape): Refusal | undefined {
  const depth = depthOf(shape) * 1000;
  if (!Number.isFinite(depth) || depth <= 0) return refuse('shape not possible', 'The thickness must be above 0 mm.');
  if (depth > bounds.thicknessMaximumMillimetres) {
    return refuse(
      'thickness not covered',
      `Heat through more than ${bounds.thicknessMaximumMillimetres} mm is not computed: a heated band would have to be two to three times as wide as that for heat to go straight through. Measure on the far face.`,
    );
  }
  if (shape.kind !== 'tube') return undefined;
  const radius = shape.outsideDiameterMillimetres / 2;
  if (!Number.isFinite(radius) || depth > radius * bounds.wallOfRadiusMaximum) {
    return refuse('shape not possible', 'The wall is as thick as the radius: enter a bar, or check the diameter.');
  }
  return undefined;
}

/**
 * The slowest time constant with the front held and the back insulated, as a part of depth^2 / diffusivity: 4 / pi^2
 * in a plate. Found on the grid itself by inverse iteration, so that it holds for every shape.
 */
export function heldModeOf(depth: number, taper: number, cells: number): number {
  const spacing = 1 / cells;
  const area = (at: number) => Math.max(0, 1 + taper * depth * at);
  let shape: number[] = Array.from({ length: cells }, () => 1);
  let factor = 0;
  for (let round = 0; round < 30; round += 1) {
    // What flows through a face is all that is stored beyond it; the front cell lies half a cell from the face.
    let beyond = 0;
    const flow = shape.map(() => 0);
    for (let cell = cells - 1; cell >= 0; cell -= 1) {
      beyond += shape[cell]! * area((cell + 0.5) * spacing) * spacing;
      flow[cell] = beyond;
    }
    let level = 0;
    const next = flow.map((through, cell) => {
      level += ((cell === 0 ? 0.5 : 1) * spacing * through) / area(cell * spacing);
      return level;
    });
    factor = next.at(-1)! / shape.at(-1)!;
    const scale = next.at(-1)!;
    shape = next.map((value) => value / scale);
  }
  return factor;
}
