/**
 * How the parts of a joint lie in its cross-section, in millimetres, y downwards. Each side of the groove has
 * a frame: where its edge is, which way it runs from there, and which way its front face looks. The groove's
 * form and the size of the weld are not in the joint's facts: they are drawn as a sign of where the weld is.
 */
import type { Joint } from '../weld/joint.ts';
import type { Part } from '../weld/part.ts';
import type { Vector } from './view.ts';

export interface Frame {
  readonly side: 'A' | 'B';
  /** Edge of the groove on the front face. */
  readonly origin: Vector;
  /** Along the part, away from the groove. */
  readonly along: Vector;
  /** Out of the front face. */
  readonly out: Vector;
  readonly thickness: number;
  readonly part: string;
}

export interface Layout {
  /** flat: both sides lie in one line. upright: side B stands on side A. */
  readonly arrangement: 'flat' | 'upright';
  readonly a: Frame;
  readonly b: Frame;
  readonly weld: readonly (readonly Vector[])[];
  /** How far side A goes on behind the upright or under the lap; 0 at a corner and at a bore. */
  readonly behind: number;
  /** How far the upright goes on below side A's front face; beyond A's thickness it comes out below. */
  readonly below: number;
  /** One piece with a hollow or a layer, not two. */
  readonly single: boolean;
}

export const layoutOf = (joint: Joint): Layout => {
  const single = joint.jointType === 'build-up' || joint.jointType === 'casting repair';
  const a = partOf(joint, 'A');
  const b = single ? a : partOf(joint, 'B');
  const t = Math.min(a.thickness, b.thickness);
  const lying = (half: number): Pick<Layout, 'a' | 'b'> => ({
    a: { side: 'A', origin: [-half, 0], along: [-1, 0], out: [0, -1], ...a },
    b: { side: 'B', origin: [half, 0], along: [1, 0], out: [0, -1], ...b },
  });
  const standing = (leg: number): Pick<Layout, 'a' | 'b'> => ({
    a: { side: 'A', origin: [leg, 0], along: [1, 0], out: [0, -1], ...a },
    b: { side: 'B', origin: [0, -leg], along: [0, -1], out: [1, 0], ...b },
  });
  const flat = { arrangement: 'flat', behind: 0, below: 0, single } as const;
  const fillet = (leg: number): Vector[] => [
    [0, 0],
    [leg, 0],
    [0, -leg],
  ];
  switch (joint.jointType) {
    case 'plate butt':
    case 'pipe butt': {
      const half = t * 0.38;
      const foot = t * 0.05;
      return {
        ...flat,
        ...lying(half),
        weld: [
          [
            [-half, 0],
            [half, 0],
            [foot, t],
            [-foot, t],
          ],
        ],
      };
    }
    case 'build-up': {
      const half = Math.min(t * 0.5, 40);
      const high = Math.min(t * 0.12, 10);
      return {
        ...flat,
        ...lying(half),
        weld: [
          [
            [-half, 0],
            [-half, -high],
            [half, -high],
            [half, 0],
          ],
        ],
      };
    }
    case 'casting repair': {
      const half = t * 0.5;
      return {
        ...flat,
        ...lying(half),
        weld: [
          [
            [-half, 0],
            [half, 0],
            [half * 0.6, t * 0.35],
            [-half * 0.6, t * 0.35],
          ],
        ],
      };
    }
    case 'lap': {
      const leg = Math.min(b.thickness, t);
      return {
        ...flat,
        behind: 3 * t,
        a: { side: 'A', origin: [leg, 0], along: [1, 0], out: [0, -1], ...a },
        b: { side: 'B', origin: [0, -b.thickness], along: [-1, 0], out: [0, -1], ...b },
        weld: [fillet(leg)],
      };
    }
    case 'nozzle or branch': {
      const leg = t * 0.6;
      // Set in: the branch goes through the wall, and behind it lies its own bore.
      const groove: Vector[] = [
        [0, 0],
        [leg, 0],
        [leg * 0.15, a.thickness],
        [0, a.thickness],
      ];
      const cap: Vector[] = [
        [0, 0],
        [leg, 0],
        [0, -leg],
      ];
      return { arrangement: 'upright', behind: 0, below: a.thickness, single, ...standing(leg), weld: [groove, cap] };
    }
    case 'T':
    case 'cruciform':
    case 'corner': {
      const leg = t * 0.6;
      const behind = joint.jointType === 'corner' ? 0 : a.thickness * 1.2;
      const below = joint.jointType === 'cruciform' ? a.thickness + Math.max(25, b.thickness * 1.5) : 0;
      const left: Vector[] = [
        [-b.thickness, 0],
        [-b.thickness - leg, 0],
        [-b.thickness, -leg],
      ];
      const weld = joint.jointType === 'corner' ? [fillet(leg)] : [fillet(leg), left];
      return { arrangement: 'upright', behind, below, single, ...standing(leg), weld };
    }
  }
};

/** The part that forms the side; where several do, the thickest; where none does, the thickest of all. */
export const partOn = ({ parts }: Pick<Joint, 'parts'>, side: 'A' | 'B'): Part | undefined => {
  const mine = parts.filter((part) => part.side === side || part.side === 'both');
  return (mine.length > 0 ? mine : parts).reduce<Part | undefined>(
    (best, part) => (best === undefined || part.thicknessMillimetres > best.thicknessMillimetres ? part : best),
    undefined,
  );
};

/** A solid bar is drawn as thick as it is. A joint that is still being typed may have no part yet. */
const partOf = (joint: Joint, side: 'A' | 'B'): { readonly thickness: number; readonly part: string } => {
  const part = partOn(joint, side);
  const bar = part?.form === 'bar' ? part.outsideDiameterMillimetres : undefined;
  return { thickness: bar ?? part?.thicknessMillimetres ?? 20, part: part?.id ?? '' };
};
