/**
 * Heat through one part over time as a map, as plain data: time across, depth downward with the heated face on top,
 * colour by temperature, and the line along which the likely temperature passes the minimum. Times without a column
 * stay empty.
 */
import type { SectionCourse, SectionStatus } from '../../../server/judgement/inside/section-status.ts';
import type { MilliCelsius } from '../../../server/measure/quantity.ts';
import type { UnitSystem } from '../../../server/measure/units.ts';
import { lengthUnit } from '../../../server/wording/length.ts';
import { timeTicks, valueScale } from '../../chart/axis.ts';
import { resampled } from '../../feed/course.ts';
import type { Zone } from '../../format/time.ts';
import { type Colour, colourAt, partOf } from './colours.ts';
import { contourOf, type Piece } from './contour.ts';
import { depthTicks } from './depth.ts';

/** Degrees Celsius from the darkest colour to the lightest. */
export interface ColourSpan {
  readonly low: number;
  readonly high: number;
}

export interface MapInput {
  readonly course: SectionCourse;
  readonly depthMillimetres: number;
  readonly minimum: MilliCelsius | undefined;
  readonly span: ColourSpan;
  readonly units: UnitSystem;
  readonly width: number;
  readonly zone?: Zone;
}

export interface MapPicture {
  readonly width: number;
  readonly height: number;
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
  /** From left to right, each with its stretch on the time axis and its colours from the heated face down. */
  readonly columns: readonly { readonly from: number; readonly to: number; readonly colours: readonly Colour[] }[];
  readonly contour: readonly Piece[];
  readonly times: readonly { readonly x: number; readonly text: string }[];
  readonly depths: readonly { readonly y: number; readonly text: string }[];
}

/** Rows of colour of one column. */
export const mapRows = 48;

/** Undefined with fewer than two columns: no axes without a picture. */
export const mapPicture = ({
  course,
  depthMillimetres,
  minimum,
  span,
  units,
  width,
  zone,
}: MapInput): MapPicture | undefined => {
  const { at, depths } = course;
  const [first, last] = [at[0], at.at(-1)];
  if (first === undefined || last === undefined || first === last) return undefined;
  const [left, right, top, bottom, height] = [52, width - 8, 8, 148, 176];
  const x = (time: number): number => left + ((time - first) / (last - first)) * (right - left);
  const y = (part: number): number => top + part * (bottom - top);
  const most = longestJoin(at);
  const isJoined = (column: number): boolean => at[column + 1]! - at[column]! <= most;
  const columnOf = (index: number): MilliCelsius[] => course.likely.slice(index * depths, (index + 1) * depths);
  const columns = at.map((time, index) => {
    const before = index > 0 && isJoined(index - 1) ? (at[index - 1]! + time) / 2 : time;
    const after = index + 1 < at.length && isJoined(index) ? (time + at[index + 1]!) / 2 : time;
    const colours = resampled(columnOf(index), mapRows).map((value) => colourAt(partOf(value / 1000, span)));
    return { from: x(before), to: x(after), colours };
  });
  const grid = {
    xs: at.map(x),
    ys: Array.from({ length: depths }, (_, row) => y(row / (depths - 1))),
    value: (column: number, row: number): number => course.likely[column * depths + row]!,
    isJoined,
  };
  return {
    ...{ width, height, left, right, top, bottom, columns },
    contour: minimum === undefined ? [] : contourOf(grid, minimum),
    times: timeTicks(first, last, Math.max(2, Math.floor((right - left) / 90)), zone).map((tick) => ({
      x: x(tick.at),
      text: tick.text,
    })),
    depths: depthTicks(depthMillimetres, units, 4).map(({ millimetres, text }) => ({
      y: y(millimetres / depthMillimetres),
      text: millimetres === depthMillimetres ? `${text} ${lengthUnit(units)}` : text,
    })),
  };
};

/** One span of colour for all parts, its ends at round degrees, so that it seldom changes while the parts warm. */
export const colourSpanOf = (
  courses: readonly SectionCourse[],
  minimum: MilliCelsius | undefined,
  units: UnitSystem,
): ColourSpan & { readonly ticks: readonly { readonly at: number; readonly text: string }[] } => {
  const extremes = courses.flatMap(({ likely }) =>
    likely.length === 0 ? [] : [Math.min(...likely), Math.max(...likely)],
  );
  const values = [...extremes, ...(minimum === undefined ? [] : [minimum])].map((value) => value / 1000);
  const low = Math.floor(Math.min(...values, 100) / 20) * 20;
  const high = Math.max(low + 40, Math.ceil(Math.max(...values) / 20) * 20);
  const ticks = valueScale([low, high], [], 6, units).ticks.filter(({ at }) => at >= low && at <= high);
  return { low, high, ticks };
};

/** The course with what the part has now as its newest column. */
export const upToNow = (course: SectionCourse, { at, profile, coldest }: SectionStatus): SectionCourse => {
  const last = course.at.at(-1);
  if (at === undefined || profile === undefined || coldest === undefined || (last !== undefined && at <= last))
    return course;
  return {
    ...course,
    at: [...course.at, at],
    likely: [...course.likely, ...resampled(profile.likely, course.depths)],
    coldest: [...course.coldest, coldest.low],
  };
};

/** Columns further apart than this have a time without one between them. */
const longestJoin = (at: readonly number[]): number => {
  const gaps = at.slice(1).map((time, index) => time - at[index]!);
  const middle = gaps.toSorted((a, b) => a - b)[Math.floor(gaps.length / 2)]!;
  return 2.5 * middle;
};
