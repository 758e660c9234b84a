/**
 * Heat through each part over time as this page knows it: the columns that the station sent, grown by the live
 * profiles at the same spacing until the station's own come again. No more than a picture has room for.
 */
import type { SectionCourse, SectionStatus } from '../../server/judgement/inside/section-status.ts';

/** Most columns of one part; beyond, every second one goes. */
export const columnsMaximum = 240;

/** The same object where nothing is new. */
export const grown = (
  courses: readonly SectionCourse[],
  sections: readonly SectionStatus[],
): readonly SectionCourse[] => {
  let now = courses;
  for (const section of sections) {
    const index = now.findIndex(({ part }) => part === section.part);
    const before = now[index];
    const after = withColumn(before, section);
    if (after === undefined || after === before) continue;
    now = index < 0 ? [...now, after] : now.with(index, after);
  }
  return now;
};

const withColumn = (course: SectionCourse | undefined, section: SectionStatus): SectionCourse | undefined => {
  const { part, at, profile, coldest } = section;
  if (at === undefined || profile === undefined || coldest === undefined) return course;
  const before = course ?? { part, depths: profile.likely.length, at: [], likely: [], coldest: [] };
  const last = before.at.at(-1);
  if (last !== undefined && at - last < Math.max(1, spacingOf(before))) return course;
  const next = {
    ...before,
    at: [...before.at, at],
    likely: [...before.likely, ...resampled(profile.likely, before.depths)],
    coldest: [...before.coldest, coldest.low],
  };
  return next.at.length > columnsMaximum ? halved(next) : next;
};

/** Of the last columns, the nearest two: one of the others may lie across a gap. */
const spacingOf = ({ at }: SectionCourse): number => {
  const gaps = at.slice(-4).flatMap((time, index, last) => (index === 0 ? [] : [time - last[index - 1]!]));
  return gaps.length === 0 ? 0 : Math.min(...gaps);
};

const halved = (course: SectionCourse): SectionCourse => {
  const isKept = (_: unknown, column: number): boolean => column % 2 === 0;
  return {
    ...course,
    at: course.at.filter(isKept),
    coldest: course.coldest.filter(isKept),
    likely: course.likely.filter((_, index) => isKept(_, Math.floor(index / course.depths))),
  };
};

/** At so many even depths, both faces included, on straight lines between those there are. */
export const resampled = <T extends number>(values: readonly T[], count: number): T[] => {
  if (values.length === count) return [...values];
  return Array.from({ length: count }, (_, index) => {
    const at = (index / (count - 1)) * (values.length - 1);
    const left = Math.min(Math.floor(at), values.length - 2);
    return Math.round(values[left]! + (at - left) * (values[left + 1]! - values[left]!)) as T;
  });
};
