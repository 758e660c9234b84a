/** The likely temperatures through one part over time: columns at even times, every second one dropped when there are too many. */
import { celsiusAtDepth } from '../../conduction/field.ts';
import type { Section } from '../../conduction/section.ts';
import type { Instant, MilliCelsius, Milliseconds } from '../../measure/quantity.ts';
import { rules } from '../rules.ts';
import type { SectionCourse } from './section-status.ts';

export interface CourseState {
  spacing: Milliseconds;
  at: Instant[];
  likely: MilliCelsius[];
  coldest: MilliCelsius[];
}

export const emptyCourse = (): CourseState => ({ spacing: rules.courseSpacing, at: [], likely: [], coldest: [] });

export const copyCourse = (course: CourseState): CourseState => ({
  ...course,
  at: [...course.at],
  likely: [...course.likely],
  coldest: [...course.coldest],
});

/** Adds what the section has now, unless the last column is too near. */
export function addColumn(course: CourseState, section: Section, coldest: MilliCelsius): void {
  const { at } = section.likely;
  const last = course.at.at(-1);
  if (last !== undefined && at - last < course.spacing) return;
  course.at.push(at);
  course.likely.push(...profileOf(section.likely, rules.courseDepths));
  course.coldest.push(coldest);
  if (course.at.length > rules.courseColumnsMaximum) thin(course);
}

/** From front to back at that many even depths, both faces included. */
export function profileOf({ field }: Section['likely'], points: number): MilliCelsius[] {
  return Array.from({ length: points }, (_, point) =>
    point === 0
      ? milli(field.frontCelsius)
      : point === points - 1
        ? milli(field.backCelsius)
        : milli(celsiusAtDepth(field, (field.depth * point) / (points - 1))),
  );
}

/** Up to the instant. */
export function courseOf(part: string, { at, likely, coldest }: CourseState, until: Instant): SectionCourse {
  const columns = at.findLastIndex((each) => each <= until) + 1;
  return {
    part,
    depths: rules.courseDepths,
    at: at.slice(0, columns),
    likely: likely.slice(0, columns * rules.courseDepths),
    coldest: coldest.slice(0, columns),
  };
}

function thin(course: CourseState): void {
  const isKept = (_: unknown, column: number): boolean => column % 2 === 0;
  course.spacing = (course.spacing * 2) as Milliseconds;
  course.at = course.at.filter(isKept);
  course.coldest = course.coldest.filter(isKept);
  course.likely = course.likely.filter((_, index) => isKept(_, Math.floor(index / rules.courseDepths)));
}

const milli = (celsius: number): MilliCelsius => Math.round(celsius * 1000) as MilliCelsius;
