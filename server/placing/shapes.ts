/** What a sheet is, and a view's shapes on it: one scale and a shift. In units of the sheet. */
import type { Pin } from './pins.ts';
import type { Mark, Steel, Stretch, Vector, View } from './view.ts';

/** Sizes that the outlet chooses. */
export interface SheetSize {
  readonly width: number;
  /** Most height for the drawing itself, without the labels over and under it. */
  readonly heightMost: number;
  readonly label: { readonly width: number; readonly height: number; readonly gap: number };
  /** Room between a face and the nearest label. */
  readonly lead: number;
  /** Room at the edge of the sheet. */
  readonly edge: number;
}

export interface Sheet {
  readonly width: number;
  readonly height: number;
  readonly labelWidth: number;
  readonly perMillimetre: number;
  readonly steel: readonly Steel[];
  readonly weld: readonly (readonly Vector[])[];
  readonly zoneLines: readonly Stretch[];
  readonly zoneAreas: readonly (readonly Vector[])[];
  readonly heatedLines: readonly Stretch[];
  readonly heatedAreas: readonly (readonly Vector[])[];
  readonly axes: readonly (readonly [Vector, Vector])[];
  readonly words: View['words'];
  readonly pins: readonly Pin[];
}

export type ToSheet = (point: Vector) => Vector;

/** The view's shapes on the sheet; `at` is one scale and a shift, so that directions stay. */
export const shapesOn = (
  view: View,
  at: ToSheet,
  perMillimetre: number,
): Omit<Sheet, 'width' | 'height' | 'labelWidth' | 'pins'> => {
  const stretch = ({ from, to, out }: Stretch): Stretch => ({ from: at(from), to: at(to), out });
  const area = (points: readonly Vector[]): readonly Vector[] => points.map(at);
  return {
    perMillimetre,
    steel: view.steel.map((one) => ({
      ...one,
      points: area(one.points),
      ...(one.hole === undefined ? {} : { hole: area(one.hole) }),
      middle: at(one.middle),
      room: one.room * perMillimetre,
    })),
    weld: view.weld.map(area),
    zoneLines: view.zoneLines.map(stretch),
    zoneAreas: view.zoneAreas.map(area),
    heatedLines: view.heatedLines.map(stretch),
    heatedAreas: view.heatedAreas.map(area),
    axes: view.axes.map(([from, to]) => [at(from), at(to)]),
    words: view.words.map((one) => ({ ...one, at: at(one.at) })),
  };
};

export interface Box {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/** Around everything that is drawn but the labels. */
export const boxOf = (view: View): Box => {
  const points = [
    ...view.steel.flatMap((one) => one.points),
    ...view.weld.flat(),
    ...view.heatedAreas.flat(),
    ...view.zoneAreas.flat(),
    ...view.axes.flat(),
    ...view.marks.map((mark: Mark) => mark.at),
  ];
  const [xs, ys] = [points.map(([x]) => x), points.map(([, y]) => y)];
  return { left: Math.min(...xs), right: Math.max(...xs), top: Math.min(...ys), bottom: Math.max(...ys) };
};
