/**
 * Readings thinned as they were judged: corrected before they are thinned, so that a peak stays a peak, and each step
 * with its uncertainty.
 */
import type { MeasuredOverTime } from '../judgement/measuring/over-time.ts';
import type { Course } from '../ledger/courses-read.ts';
import type { HistorySeries, HistoryView } from '../measure/history.ts';
import type { Instant, MilliCelsius } from '../measure/quantity.ts';
import type { Scan } from '../weld/scan.ts';
import { type ThinOptions, thin, thinCourses } from './thin.ts';

export const thinJudged = (scans: Iterable<Scan>, measured: MeasuredOverTime, options: ThinOptions): HistoryView =>
  withUncertainty(thin(measured.isCorrected ? correctedScans(scans, measured) : scans, options), measured);

export const thinJudgedCourses = (
  courses: Iterable<Course>,
  measured: MeasuredOverTime,
  options: ThinOptions,
): HistoryView =>
  withUncertainty(thinCourses(measured.isCorrected ? correctedCourses(courses, measured) : courses, options), measured);

function* correctedScans(scans: Iterable<Scan>, measured: MeasuredOverTime): Iterable<Scan> {
  for (const scan of scans) {
    const values = scan.values.map((value) =>
      value.temperature === undefined
        ? value
        : { ...value, temperature: measured.correct(value.probe, scan.measuredAt, value.temperature) },
    );
    yield { ...scan, values };
  }
}

function* correctedCourses(courses: Iterable<Course>, measured: MeasuredOverTime): Iterable<Course> {
  for (const course of courses) {
    const temperatures = course.temperatures.map((temperature, index) =>
      temperature === undefined ? undefined : measured.correct(course.probe, course.measuredAt[index]!, temperature),
    );
    yield { ...course, temperatures };
  }
}

const withUncertainty = (view: HistoryView, measured: MeasuredOverTime): HistoryView => ({
  ...view,
  series: view.series.map((each) => uncertain(each, measured)),
});

function uncertain(series: HistorySeries, measured: MeasuredOverTime): HistorySeries {
  const { probe, steps } = series;
  const found = steps.map((step) =>
    step[1] === null ? 0 : measured.expandedUncertainty(probe, step[0] as Instant, step[4] as MilliCelsius),
  );
  return found.some((each) => each === undefined) || steps.length === 0
    ? series
    : { ...series, expandedUncertainty: found as number[] };
}
