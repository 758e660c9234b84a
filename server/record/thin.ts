/**
 * Scans to a view that hides no peak: the span is cut into steps of one length; of each the first, lowest,
 * highest and last value are kept. A step without a good value is a gap, and a bad value among good ones
 * leaves its mark behind them, so that no line runs across what was not measured.
 */
import type { Course } from '../ledger/courses-read.ts';
import type { HistorySeries, HistoryStep, HistoryView } from '../measure/history.ts';
import type { Instant } from '../measure/quantity.ts';
import type { Scan } from '../weld/scan.ts';

export interface ThinOptions {
  readonly probes: readonly string[];
  readonly from: Instant;
  readonly to: Instant;
  /** Most steps for one probe. */
  readonly points: number;
  /** Longest period between two scans that was in force in the span (periods.ts). */
  readonly periodMilliseconds: number;
}

/** Thins scans, taken in whatever order. Each series is in the order of time. */
export function thin(scans: Iterable<Scan>, options: ThinOptions): HistoryView {
  const thinner = createThinner(options);
  for (const { measuredAt, values } of scans) {
    for (const { probe, quality, temperature } of values) {
      thinner.take(probe, measuredAt, quality === 'good' ? temperature : undefined);
    }
  }
  return thinner.view();
}

/** The same from courses, without a scan being made. */
export function thinCourses(courses: Iterable<Course>, options: ThinOptions): HistoryView {
  const thinner = createThinner(options);
  for (const { probe, measuredAt, temperatures } of courses) {
    for (let index = 0; index < measuredAt.length; index += 1) {
      thinner.take(probe, measuredAt[index]!, temperatures[index]);
    }
  }
  return thinner.view();
}

function createThinner({ probes, from, to, points, periodMilliseconds }: ThinOptions) {
  // Two periods: then every step holds a reading while the board reads, however its clock jitters.
  const stepMilliseconds = Math.max(Math.ceil((to - from) / points), 2 * periodMilliseconds, 1);
  const tracks = new Map(
    probes.map((probe): [string, Track] => [probe, { buckets: new Map(), index: -1, bucket: {} }]),
  );
  return {
    /** No temperature: the value was not good. */
    take(probe: string, at: Instant, temperature: number | undefined): void {
      if (at < from || at > to) return;
      const track = tracks.get(probe);
      if (track === undefined) return;
      const bucket = bucketOf(track, Math.floor((at - from) / stepMilliseconds));
      if (temperature === undefined) bucket.badAt = Math.max(bucket.badAt ?? at, at);
      else addGood(bucket, at, temperature);
    },
    view(): HistoryView {
      const series = [...tracks].map(
        ([probe, { buckets }]): HistorySeries => ({ probe, steps: stepsOf(buckets, from, stepMilliseconds) }),
      );
      return { from, to, stepMilliseconds, series };
    },
  };
}

interface Track {
  readonly buckets: Map<number, Bucket>;
  /** The newest bucket that was asked for. */
  index: number;
  bucket: Bucket;
}

interface Bucket {
  /** Absent while the step has no good value. */
  good?: Good;
  /** Newest bad value of the step. */
  badAt?: number;
}

interface Good {
  firstAt: number;
  lastAt: number;
  first: number;
  minimum: number;
  maximum: number;
  last: number;
}

function addGood(bucket: Bucket, at: number, value: number): void {
  const { good } = bucket;
  if (good === undefined) {
    bucket.good = { firstAt: at, lastAt: at, first: value, minimum: value, maximum: value, last: value };
    return;
  }
  if (at < good.firstAt) {
    good.firstAt = at;
    good.first = value;
  }
  if (at >= good.lastAt) {
    good.lastAt = at;
    good.last = value;
  }
  if (value < good.minimum) good.minimum = value;
  if (value > good.maximum) good.maximum = value;
}

/** Scans come mostly in order: the bucket of the last value is nearly always the one asked for. */
function bucketOf(track: Track, index: number): Bucket {
  if (track.index === index) return track.bucket;
  const bucket = track.buckets.get(index) ?? {};
  track.buckets.set(index, bucket);
  track.index = index;
  track.bucket = bucket;
  return bucket;
}

function stepsOf(track: Map<number, Bucket>, from: number, step: number): HistoryStep[] {
  const steps: HistoryStep[] = [];
  const gapAt = (at: number): void => {
    if (steps.at(-1)?.[1] !== null) steps.push([at, null]);
  };
  let previous: number | undefined;
  for (const [index, bucket] of [...track].sort(([a], [b]) => a - b)) {
    const at = from + index * step;
    if (previous !== undefined && index > previous + 1) gapAt(from + (previous + 1) * step);
    previous = index;
    const { good, badAt } = bucket;
    if (good === undefined) {
      gapAt(at);
      continue;
    }
    steps.push([at, good.first, good.minimum, good.maximum, good.last]);
    if (badAt !== undefined) gapAt(badAt);
  }
  return steps;
}
