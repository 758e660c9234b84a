/** The map as a table, for whoever cannot or will not read colours: newest first, at most so many rows. */
import type { SectionCourse } from '../../../server/judgement/inside/section-status.ts';
import type { MilliCelsius } from '../../../server/measure/quantity.ts';
import type { UnitSystem } from '../../../server/measure/units.ts';
import { lengthText } from '../../../server/wording/length.ts';
import { temperatureFigure } from '../../../server/wording/temperature.ts';
import { resampled } from '../../feed/course.ts';
import { clockText, type Zone } from '../../format/time.ts';

export interface WallTable {
  readonly heads: readonly string[];
  readonly rows: readonly { readonly time: string; readonly cells: readonly string[] }[];
}

export const wallTable = (
  course: SectionCourse,
  depthMillimetres: number,
  minimum: MilliCelsius | undefined,
  units: UnitSystem,
  zone?: Zone,
): WallTable => {
  const { at, likely, coldest, depths } = course;
  const every = Math.max(1, Math.ceil(at.length / rowsMaximum));
  const text = (value: MilliCelsius): string => temperatureFigure(value, units, { limit: minimum });
  const rows = at.flatMap((time, index) =>
    (at.length - 1 - index) % every === 0
      ? [
          {
            time: clockText(time, zone),
            cells: [
              ...resampled(likely.slice(index * depths, (index + 1) * depths), shownDepths).map(text),
              text(coldest[index]!),
            ],
          },
        ]
      : [],
  );
  const inner = [1, 2, 3].map((quarter) => lengthText(Math.round((quarter / 4) * depthMillimetres * 10) / 10, units));
  return { heads: ['Heated face', ...inner, 'Far face', 'Coldest at worst'], rows: rows.reverse() };
};

const rowsMaximum = 40;
/** Both faces and the quarters between. */
const shownDepths = 5;
