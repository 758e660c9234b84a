/**
 * Scans to a view that hides no peak: of each step the first, lowest, highest and last value, and a gap
 * wherever nothing good was measured for longer than three periods, or a value came in bad.
 */
import type { HistorySeries, HistoryStep, HistoryView } from '../measure/history.ts';
import type { Instant } from '../measure/quantity.ts';
import type { Scan } from '../weld/scan.ts';

export interface ThinOptions {
  readonly probes: readonly string[];
  readonly from: Instant;
  readonly to: Instant;
  /** Most steps for one probe. */
  readonly points: number;
  readonly periodMilliseconds: number;
}

/** Goes through the scans once. Each series is in the order of time, whatever came late. */
export function thin(
  scans: Iterable<Scan>,
  { probes, from, to, points, periodMilliseconds }: ThinOptions,
): HistoryView {
  const stepMilliseconds = Math.max(Math.ceil((to - from) / points), periodMilliseconds, 1);
  const tracks = new Map(probes.map((probe) => [probe, new Map<number, Bucket>()]));
  for (const scan of scans) {
    if (scan.measuredAt < from || scan.measuredAt > to) continue;
    const index = Math.floor((scan.measuredAt - from) / stepMilliseconds);
    for (const value of scan.values) {
      const track = tracks.get(value.probe);
      if (track === undefined) continue;
      add(track, index, scan.measuredAt, value.quality === 'good' ? value.temperature : undefined);
    }
  }
  const gapAfter = 3 * periodMilliseconds;
  const series = probes.map(
    (probe): HistorySeries => ({
      probe,
      steps: stepsOf(tracks.get(probe)!, gapAfter),
    }),
  );
  return { from, to, stepMilliseconds, series };
}

interface Bucket {
  firstAt: number;
  lastAt: number;
  first: number;
  minimum: number;
  maximum: number;
  last: number;
  /** A value of this step was bad. */
  badAt: number | undefined;
  good: boolean;
}

function add(track: Map<number, Bucket>, index: number, at: number, value: number | undefined): void {
  const bucket = track.get(index);
  if (bucket === undefined) {
    const known = value ?? 0;
    track.set(index, {
      firstAt: at,
      lastAt: at,
      first: known,
      minimum: known,
      maximum: known,
      last: known,
      badAt: value === undefined ? at : undefined,
      good: value !== undefined,
    });
    return;
  }
  if (value === undefined) {
    bucket.badAt = at;
    return;
  }
  if (!bucket.good)
    Object.assign(bucket, {
      firstAt: at,
      lastAt: at,
      first: value,
      minimum: value,
      maximum: value,
      last: value,
      good: true,
    });
  if (at < bucket.firstAt) Object.assign(bucket, { firstAt: at, first: value });
  if (at >= bucket.lastAt) Object.assign(bucket, { lastAt: at, last: value });
  if (value < bucket.minimum) bucket.minimum = value;
  if (value > bucket.maximum) bucket.maximum = value;
}

function stepsOf(track: Map<number, Bucket>, gapAfter: number): HistoryStep[] {
  const steps: HistoryStep[] = [];
  let lastGoodAt: number | undefined;
  for (const [, bucket] of [...track].sort(([a], [b]) => a - b)) {
    if (!bucket.good) {
      steps.push([bucket.badAt!, null]);
      continue;
    }
    if (lastGoodAt !== undefined && bucket.firstAt - lastGoodAt > gapAfter) steps.push([lastGoodAt + 1, null]);
    steps.push([bucket.firstAt, bucket.first, bucket.minimum, bucket.maximum, bucket.last]);
    // The gap itself is drawn after the values of its step: the values stay, and no line runs across.
    if (bucket.badAt !== undefined) steps.push([Math.max(bucket.badAt, bucket.lastAt) + 1, null]);
    lastGoodAt = bucket.lastAt;
  }
  return steps;
}
