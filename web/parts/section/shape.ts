/** What goes into the layout of a cross-section, and what comes out of it. Pixels. */
import type { Joint } from '../../../server/weld/joint.ts';
import type { Layout, Vector } from './frames.ts';
import type { Outline } from './outline.ts';
import type { Pin, Placed } from './pins.ts';

export interface Sheet {
  readonly joint: Joint;
  readonly layout: Layout;
  readonly placed: readonly Placed[];
  readonly width: number;
  readonly labelWidth: number;
}

export interface Plan {
  readonly width: number;
  readonly height: number;
  readonly labelWidth: number;
  readonly pixelsPerMillimetre: number;
  readonly outlines: readonly Outline[];
  readonly weld: readonly Vector[];
  readonly heaters: readonly (readonly [Vector, Vector])[];
  readonly pins: readonly Pin[];
  readonly faces: readonly { readonly text: string; readonly at: Vector; readonly anchor: 'start' | 'end' }[];
  /** Centre line of a pipe. */
  readonly axis?: readonly [Vector, Vector];
}
