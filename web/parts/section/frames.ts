/**
 * How the parts of a joint lie in its cross-section, in millimetres, y downwards. Each side of the groove has
 * a frame: where its edge is, which way it runs from there, and which way its front face looks.
 */
import type { Joint } from '../../../server/weld/joint.ts';

export type Vector = readonly [x: number, y: number];

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

/** flat: both sides lie in one line. upright: side B stands on side A. */
export type Arrangement = 'flat' | 'upright';

export interface Layout {
  readonly arrangement: Arrangement;
  readonly a: Frame;
  readonly b: Frame;
  readonly weld: readonly Vector[];
  /** How far side A goes on behind the upright or under the lap; 0 at a corner. */
  readonly behind: number;
  /** The upright goes on below as well. */
  readonly cross: boolean;
  /** One piece with a hollow, not two. */
  readonly single: boolean;
  readonly pipe: boolean;
}

export const layoutOf = (joint: Joint): Layout => {
  const single = joint.jointType === 'build-up' || joint.jointType === 'casting repair';
  const a = partOf(joint, 'A');
  const b = single ? a : partOf(joint, 'B');
  const t = Math.min(a.thickness, b.thickness);
  const shared = { behind: 0, cross: false, single, pipe: joint.jointType === 'pipe butt' };
  switch (joint.jointType) {
    case 'plate butt':
    case 'pipe butt': {
      const half = t * 0.38;
      return {
        ...shared,
        arrangement: 'flat',
        a: { side: 'A', origin: [-half, 0], along: [-1, 0], out: [0, -1], ...a },
        b: { side: 'B', origin: [half, 0], along: [1, 0], out: [0, -1], ...b },
        weld: [
          [-half, 0],
          [half, 0],
          [t * 0.05, t],
          [-t * 0.05, t],
        ],
      };
    }
    case 'build-up':
    case 'casting repair': {
      const half = t * 0.5;
      const depth = t * 0.35;
      return {
        ...shared,
        arrangement: 'flat',
        a: { side: 'A', origin: [-half, 0], along: [-1, 0], out: [0, -1], ...a },
        b: { side: 'B', origin: [half, 0], along: [1, 0], out: [0, -1], ...b },
        weld: [
          [-half, 0],
          [half, 0],
          [half * 0.6, depth],
          [-half * 0.6, depth],
        ],
      };
    }
    case 'lap': {
      const leg = Math.min(b.thickness, t);
      return {
        ...shared,
        arrangement: 'flat',
        behind: 3 * t,
        a: { side: 'A', origin: [leg, 0], along: [1, 0], out: [0, -1], ...a },
        b: { side: 'B', origin: [0, -b.thickness], along: [-1, 0], out: [0, -1], ...b },
        weld: [
          [0, 0],
          [leg, 0],
          [0, -leg],
        ],
      };
    }
    case 'T':
    case 'cruciform':
    case 'corner':
    case 'nozzle or branch': {
      const leg = t * 0.6;
      return {
        ...shared,
        arrangement: 'upright',
        behind: joint.jointType === 'corner' ? 0 : a.thickness * 1.2,
        cross: joint.jointType === 'cruciform',
        a: { side: 'A', origin: [leg, 0], along: [1, 0], out: [0, -1], ...a },
        b: { side: 'B', origin: [0, -leg], along: [0, -1], out: [1, 0], ...b },
        weld: [
          [0, 0],
          [leg, 0],
          [0, -leg],
        ],
      };
    }
  }
};

/** The part that forms the side; where several do, the thickest; where none does, the thickest of all. */
const partOf = ({ parts }: Joint, side: 'A' | 'B'): { readonly thickness: number; readonly part: string } => {
  const mine = parts.filter((part) => part.side === side || part.side === 'both');
  const all = mine.length > 0 ? mine : parts;
  const thickest = all.reduce<Joint['parts'][number] | undefined>(
    (best, part) => (best === undefined || part.thicknessMillimetres > best.thicknessMillimetres ? part : best),
    undefined,
  );
  return { thickness: thickest?.thicknessMillimetres ?? 20, part: thickest?.id ?? '' };
};
