/**
 * The readings that a chart shows, thinned to steps of a fixed length: first, minimum, maximum and last of
 * each, and gaps. History comes thinned by the station; live readings are folded into the same steps here,
 * so that no peak is lost and a gap stays a gap. The tracks belong to one chart, which alone changes them.
 */
import type { HistoryView, LiveReading } from '../../server/screen/contract.ts';

export interface Step {
  /** Beginning of the step, milliseconds since 1970. */
  readonly at: number;
  first: number;
  minimum: number;
  maximum: number;
  last: number;
  /** When the last value was measured, if known. */
  lastAt: number;
  /** Expanded uncertainty, thousandths of a kelvin; absent where it is not kept. */
  readonly uncertainty?: number;
}
/** From here on nothing trusted was measured, until the next step. */
export interface Gap {
  readonly at: number;
  readonly gap: true;
}
export type Piece = Step | Gap;
export const isGap = (piece: Piece): piece is Gap => 'gap' in piece;

export interface Tracks {
  readonly stepMilliseconds: number;
  /** Longer between two readings of a probe is a gap. */
  readonly gapAfterMilliseconds: number;
  readonly from: number;
  readonly pieces: Map<string, Piece[]>;
  /** Newest time taken in, of any probe. */
  newest: number;
}

export const fromHistory = (view: HistoryView, periodMilliseconds: number): Tracks => {
  const pieces = new Map<string, Piece[]>();
  let newest = view.from as number;
  for (const { probe, steps, expandedUncertainty } of view.series) {
    const track = steps.map((step, index): Piece => {
      if (step[1] === null) return { at: step[0], gap: true };
      const [at, first, minimum, maximum, last] = step;
      // The station does not say when in the step the last value came; the end of the step is the latest it can be.
      const uncertainty = expandedUncertainty?.[index];
      return {
        at,
        first,
        minimum,
        maximum,
        last,
        lastAt: Math.min(at + view.stepMilliseconds - 1, view.to),
        ...(uncertainty === undefined ? {} : { uncertainty }),
      };
    });
    pieces.set(probe, track);
    const end = track.at(-1);
    if (end !== undefined) newest = Math.max(newest, isGap(end) ? end.at : end.lastAt);
  }
  return {
    stepMilliseconds: view.stepMilliseconds,
    gapAfterMilliseconds: Math.max(3 * periodMilliseconds, view.stepMilliseconds * 1.5),
    from: view.from,
    pieces,
    newest,
  };
};

/**
 * Takes a live reading in; one that lies in the last step may deepen it. Answers false for a reading from before
 * that step: it came late, and only the station can put it in its place.
 */
export const takeReading = (tracks: Tracks, reading: LiveReading, uncertainty?: number): boolean => {
  let track = tracks.pieces.get(reading.probe);
  if (track === undefined) {
    track = [];
    tracks.pieces.set(reading.probe, track);
  }
  const end = track.at(-1);
  if (end !== undefined && reading.at < end.at) return false;
  tracks.newest = Math.max(tracks.newest, reading.at);
  if (reading.temperature === undefined) {
    if (end !== undefined && !isGap(end)) track.push({ at: reading.at, gap: true });
    return true;
  }
  const value = reading.temperature;
  if (end !== undefined && !isGap(end)) {
    if (reading.at - end.lastAt > tracks.gapAfterMilliseconds) {
      track.push({ at: end.lastAt + 1, gap: true });
    } else if (reading.at < end.at + tracks.stepMilliseconds) {
      end.minimum = Math.min(end.minimum, value);
      end.maximum = Math.max(end.maximum, value);
      if (reading.at >= end.lastAt) {
        end.last = value;
        end.lastAt = reading.at;
      }
      return true;
    }
  }
  const grid = Math.floor(reading.at / tracks.stepMilliseconds) * tracks.stepMilliseconds;
  const at = end === undefined ? grid : Math.max(grid, isGap(end) ? end.at : end.at + tracks.stepMilliseconds);
  track.push({
    at: Math.min(at, reading.at),
    first: value,
    minimum: value,
    maximum: value,
    last: value,
    lastAt: reading.at,
    ...(uncertainty === undefined ? {} : { uncertainty }),
  });
  return true;
};

export interface Point {
  readonly x: number;
  /** Degrees Celsius; null breaks the line. */
  readonly y: number | null;
}

/** The line of one probe. Inside a step the extremes stand upright at its middle, since when they came is not known. */
export const pointsOf = (pieces: readonly Piece[], stepMilliseconds: number, from: number, to: number): Point[] => {
  const points: Point[] = [];
  for (const piece of pieces) {
    if (piece.at + stepMilliseconds < from) continue;
    if (piece.at > to) break;
    if (isGap(piece)) {
      points.push({ x: piece.at, y: null });
      continue;
    }
    points.push({ x: piece.at, y: piece.first / 1000 });
    const middle = piece.at + stepMilliseconds / 2;
    if (piece.minimum < Math.min(piece.first, piece.last))
      points.push({ x: Math.min(middle, piece.lastAt), y: piece.minimum / 1000 });
    if (piece.maximum > Math.max(piece.first, piece.last))
      points.push({ x: Math.min(middle, piece.lastAt), y: piece.maximum / 1000 });
    if (piece.lastAt > piece.at) points.push({ x: piece.lastAt, y: piece.last / 1000 });
  }
  return points;
};

/** Number of steps of the longest track: above what the chart can show, the history is asked for again. */
export const longest = (tracks: Tracks): number =>
  Math.max(0, ...[...tracks.pieces.values()].map((track) => track.length));
