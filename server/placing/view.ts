/**
 * A view of the joint in millimetres, y downwards: what is steel and weld, where to measure, where it is
 * heated, where each probe sits. Screen and paper draw from it, so that they cannot disagree.
 */
import type { Probe } from '../weld/probe.ts';

export type Vector = readonly [x: number, y: number];
export type Placed = Probe & { readonly place: NonNullable<Probe['place']> };

export interface Steel {
  readonly points: readonly Vector[];
  /** Inner outline of a ring. */
  readonly hole?: readonly Vector[];
  /** Whose name and thickness is written at `middle`. */
  readonly part?: { readonly side?: 'A' | 'B'; readonly id: string; readonly thicknessMillimetres: number };
  readonly middle: Vector;
  /** How much room there is to write in, along the part. */
  readonly room: number;
  /** Written upwards, in an upright part. */
  readonly upright?: boolean;
}

/** A length of a face, with the direction out of the steel. */
export interface Stretch {
  readonly from: Vector;
  readonly to: Vector;
  readonly out: Vector;
}

export interface Mark {
  readonly probe: Placed;
  readonly at: Vector;
  /** Out of the surface; its label lies that way. */
  readonly out: Vector;
  /** In a plan: on the face that looks away. */
  readonly hidden: boolean;
  /** Further from the groove than is drawn; stands at the end of what is drawn. */
  readonly beyond: boolean;
}

export interface Word {
  readonly text: string;
  readonly at: Vector;
  readonly anchor: 'start' | 'middle' | 'end';
  /** Written off the point by its own height, this way. */
  readonly toward?: Vector;
}

/** What the joint's facts do not say and the drawing therefore does not claim. */
export type Liberty =
  | { readonly kind: 'groove schematic' }
  | { readonly kind: 'diameter missing'; readonly part: string }
  | { readonly kind: 'positions along the weld' }
  | { readonly kind: 'cavity schematic' }
  | { readonly kind: 'clock missing'; readonly probes: readonly string[] }
  | { readonly kind: 'beyond'; readonly probes: readonly string[] }
  | { readonly kind: 'not drawn'; readonly parts: readonly string[] };

export interface View {
  /** flat: labels over and under. upright: side B stands on side A. around: labels left and right. */
  readonly arrangement: 'flat' | 'upright' | 'around';
  readonly steel: readonly Steel[];
  readonly weld: readonly (readonly Vector[])[];
  /** Where the temperature has to be: along faces in a section, areas in a plan. */
  readonly zoneLines: readonly Stretch[];
  readonly zoneAreas: readonly (readonly Vector[])[];
  readonly heatedLines: readonly Stretch[];
  readonly heatedAreas: readonly (readonly Vector[])[];
  readonly marks: readonly Mark[];
  readonly axes: readonly (readonly [Vector, Vector])[];
  readonly words: readonly Word[];
  readonly liberties: readonly Liberty[];
}

export const placedOf = (probes: readonly Probe[]): Placed[] =>
  probes.filter((probe): probe is Placed => probe.place !== undefined);
