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

/** From the first to the last, those in which nothing was among them; both of one kind. */
export function periodsBetween(first: string, last: string): string[] {
  const names: string[] = [];
  for (let name = first; name <= last; name = after(name)) names.push(name);
  return names;
}

function after(name: string): string {
  const [year, part] = [Number(name.slice(0, 4)), Number(name.slice(-2))];
  const isWeek = name.includes('W');
  const isLast = isWeek ? thursdayOf(year, part) + 7 >= firstOf(year + 1) : part === 12;
  const next = `${isLast ? 1 : part + 1}`.padStart(2, '0');
  return `${isLast ? year + 1 : year}-${isWeek ? 'W' : ''}${next}`;
}

/** Week 1 has the fourth of January in it. */
function thursdayOf(year: number, week: number): number {
  const fourth = firstOf(year) + 3;
  return fourth + 3 - ((fourth + 3) % 7) + (week - 1) * 7;
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
