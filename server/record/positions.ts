/**
 * Positions of a block's scans as runs of steps: [step, count, ...], the first step from 0. They only
 * order the tail across chains; the order within a chain stands in the hashed bytes.
 */
import { CanonicalFailure, decodeTrusted, encodeCanonical } from '../ledger/canonical.ts';
import { RunsWriter, readRuns } from '../ledger/columns.ts';
import { limits } from '../measure/limits.ts';

export const encodePositions = (positions: readonly number[]): Uint8Array => {
  const runs = new RunsWriter();
  let last = 0;
  for (const position of positions) {
    if (position <= last) throw new CanonicalFailure('positions', 'they do not increase');
    runs.add(position - last, 'positions');
    last = position;
  }
  return encodeCanonical(runs.runs, limits.blockBytesMaximum);
};

/** Exactly `count` positions, increasing; or it throws CanonicalFailure. */
export const decodePositions = (bytes: Uint8Array, count: number): readonly number[] => {
  let last = 0;
  return readRuns(decodeTrusted(bytes, limits.blockBytesMaximum), count, 'positions').map((step) => {
    if (step < 1) throw new CanonicalFailure('positions', 'they do not increase');
    last += step;
    return last;
  });
};
