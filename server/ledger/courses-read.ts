/**
 * Temperatures over time in the bytes that scans-write made, probe by probe: what a chart needs, without
 * making a scan of each instant and a raw number of each value. A day of sixteen probes is read in this way.
 */
import type { Instant, MilliCelsius } from '../measure/quantity.ts';
import { qualities } from '../weld/scan.ts';
import { CanonicalFailure } from './canonical.ts';
import { readRuns, readSteps } from './columns.ts';
import { documentOf, type Found, list, object, text } from './found.ts';

/** One probe on one board: at each instant a temperature, or nothing where the value was not good. */
export interface Course {
  readonly probe: string;
  readonly measuredAt: readonly Instant[];
  readonly temperatures: readonly (MilliCelsius | undefined)[];
}

/** Throws CanonicalFailure for columns that do not fit together. `count` is the number of scans. */
export const decodeCourses = (bytes: Uint8Array, count: number): readonly Course[] =>
  coursesOf(documentOf(bytes, count));

/** Uses the columns up: their steps become values in place. */
export const coursesOf = (document: Found): readonly Course[] =>
  list(document.groups, 'groups').flatMap((each) => {
    const group = object(each, 'groups');
    const measuredAt = readSteps(group.measuredAt, 'measuredAt') as readonly Instant[];
    return list(group.probes, 'probes').map((probe) => courseOf(object(probe, 'probes'), measuredAt));
  });

const goodIndex = qualities.indexOf('good');

const courseOf = (found: Found, measuredAt: readonly Instant[]): Course => {
  const quality = readRuns(found.quality, measuredAt.length, 'quality');
  const good = readSteps(found.temperature, 'temperature') as readonly MilliCelsius[];
  let next = 0;
  const temperatures = quality.map((index) => (index === goodIndex ? good[next++] : undefined));
  if (next !== good.length) throw new CanonicalFailure('temperature', 'not as many values as are good');
  return { probe: text(found.probe, 'probe'), measuredAt, temperatures };
};
