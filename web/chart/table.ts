/** The table behind the chart: the same steps in words and figures, for whoever cannot or will not read lines. */

import type { Instant, MilliCelsius } from '../../server/measure/quantity.ts';
import type { UnitSystem } from '../../server/measure/units.ts';
import { temperatureFigure } from '../../server/wording/temperature.ts';
import { clockMinuteText, clockText, type Zone } from '../format/time.ts';
import { isGap, type Tracks } from './tracks.ts';
import type { Stretch } from './window.ts';

export interface ChartTable {
  readonly probes: readonly string[];
  readonly rows: readonly { readonly time: string; readonly cells: readonly string[] }[];
  readonly rowLength: string;
}

const lengths = [10, 30, 60, 120, 300, 600, 900, 1800, 3600, 7200, 14_400, 43_200, 86_400].map(
  (seconds) => seconds * 1000,
);

/** At most `most` rows of a round length; each cell says the lowest and the highest of that time. */
export const tableOf = (
  tracks: Tracks,
  probes: readonly string[],
  stretch: Stretch,
  limits: readonly MilliCelsius[],
  units: UnitSystem,
  most: number,
  zone?: Zone,
): ChartTable => {
  const wanted = (stretch.to - stretch.from) / most;
  const length = lengths.find((each) => each >= wanted && each >= tracks.stepMilliseconds) ?? lengths.at(-1)!;
  const first = Math.floor(stretch.from / length) * length;
  const count = Math.max(0, Math.min(most + 1, Math.ceil((stretch.to - first) / length)));
  const columns = probes.map((probe) => column(tracks, probe, first, length, count, limits, units));
  const rows = Array.from({ length: count }, (_, row) => {
    const at = (first + row * length) as Instant;
    return {
      time: length < 60_000 ? clockText(at, zone) : clockMinuteText(at, zone),
      cells: columns.map((cells) => cells[row] ?? 'no reading'),
    };
  });
  return { probes, rows: rows.reverse(), rowLength: lengthText(length) };
};

const column = (
  tracks: Tracks,
  probe: string,
  first: number,
  length: number,
  count: number,
  limits: readonly MilliCelsius[],
  units: UnitSystem,
): (string | undefined)[] => {
  const low = new Array<number | undefined>(count).fill(undefined);
  const high = new Array<number | undefined>(count).fill(undefined);
  for (const piece of tracks.pieces.get(probe) ?? []) {
    if (isGap(piece)) continue;
    const row = Math.floor((piece.at - first) / length);
    if (row < 0 || row >= count) continue;
    low[row] = Math.min(low[row] ?? piece.minimum, piece.minimum);
    high[row] = Math.max(high[row] ?? piece.maximum, piece.maximum);
  }
  return low.map((bottom, row) => {
    const top = high[row];
    if (bottom === undefined || top === undefined) return undefined;
    const a = temperatureFigure(bottom as MilliCelsius, units, { limit: limits });
    const b = temperatureFigure(top as MilliCelsius, units, { limit: limits });
    return a === b ? a : `${a} to ${b}`;
  });
};

const lengthText = (length: number): string =>
  length < 60_000 ? `${length / 1000} s` : length < 3_600_000 ? `${length / 60_000} min` : `${length / 3_600_000} h`;
