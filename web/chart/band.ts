/**
 * The uncertainty of one line as a band about it. Of one only: the bands of sixteen lines on one another say nothing.
 * It is that of the only line that is drawn, else of the coldest place that has to be warm.
 */
import type { Assessment } from '../../server/judgement/assessment.ts';
import { isGap, type Piece } from './tracks.ts';

export interface BandPoint {
  readonly x: number;
  /** Degrees Celsius. */
  readonly low: number;
  readonly high: number;
}

export const bandedProbe = (
  drawn: readonly string[],
  { coldest, probes }: Pick<Assessment, 'coldest' | 'probes'>,
): string | undefined => {
  if (drawn.length === 1) return drawn[0];
  if (coldest !== undefined && drawn.includes(coldest.probe)) return coldest.probe;
  return drawn.find((each) => probes.some(({ probe, required }) => probe === each && required));
};

/** Unbroken stretches: a gap in the line is a gap in its band. */
export const bandOf = (
  pieces: readonly Piece[],
  stepMilliseconds: number,
  from: number,
  to: number,
): readonly (readonly BandPoint[])[] => {
  const runs: BandPoint[][] = [];
  let run: BandPoint[] = [];
  const end = (): void => {
    if (run.length > 0) runs.push(run);
    run = [];
  };
  for (const piece of pieces) {
    if (piece.at + stepMilliseconds < from) continue;
    if (piece.at > to) break;
    if (isGap(piece) || piece.uncertainty === undefined) {
      end();
      continue;
    }
    const width = piece.uncertainty;
    const low = (piece.minimum - width) / 1000;
    const high = (piece.maximum + width) / 1000;
    run.push({ x: piece.at, low, high });
    if (piece.lastAt > piece.at) run.push({ x: piece.lastAt, low, high });
  }
  end();
  return runs;
};
