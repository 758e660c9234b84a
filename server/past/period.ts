/** The month or the week in which something was, by the calendar of a zone: "2026-11", "2026-W48". */
import type { Instant } from '../measure/quantity.ts';
import { endOfDay } from '../weld/day.ts';
import { dateText } from '../wording/time.ts';

export const periodKinds = ['month', 'week'] as const;
export type PeriodKind = (typeof periodKinds)[number];

export function periodOf(at: Instant, kind: PeriodKind, zone: string): string {
  const day = dateText(at, zone);
  return kind === 'month' ? day.slice(0, 7) : weekOf(day);
}

/** ISO 8601: a week belongs to the year of its Thursday. */
function weekOf(day: string): string {
  const number = numberOf(day);
  // Day 0, 1 January 1970, was a Thursday.
  const weekday = (number + 3) % 7;
  const thursday = number + 3 - weekday;
  const written = Number(day.slice(0, 4));
  const year = [written + 1, written, written - 1].find((each) => thursday >= firstOf(each))!;
  const week = Math.floor((thursday - firstOf(year)) / 7) + 1;
  return `${year}-W${`${week}`.padStart(2, '0')}`;
}

const firstOf = (year: number): number => numberOf(`${year}-01-01`);
/** Days since 1 January 1970. */
const numberOf = (day: string): number => (endOfDay(day) + 1) / 86_400_000 - 1;
