/** The address of a stretch of history. */
import { limits } from '../../server/measure/limits.ts';
import type { Stretch } from './window.ts';

/** Steps for a chart of that width: about one for each pixel, in hundreds, so that a resize does not ask again. */
export const pointsFor = (width: number): number =>
  Math.min(limits.historyPointsMaximum, Math.max(200, Math.ceil(width / 100) * 100));

export const historyAddress = (joint: string, { from, to }: Stretch, points: number): string =>
  `/api/joints/${encodeURIComponent(joint)}/history?from=${Math.floor(from)}&to=${Math.ceil(to)}&points=${points}`;
