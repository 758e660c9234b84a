/**
 * Days as certificates print them, and the last instant of one. Without a clock or a calendar of the machine, so
 * that a due date ends alike everywhere: at the end of the day in UTC (own choice; no certificate names an hour).
 */
import type { Instant } from '../measure/quantity.ts';

/** Whether the text has the form 2026-03-31 and names a day that there is. */
export function isDay(text: string): boolean {
  if (!/^\d{4}-\d\d-\d\d$/.test(text)) return false;
  const [year, month, day] = numbersOf(text);
  return year >= 1900 && month >= 1 && month <= 12 && day >= 1 && day <= lengthOf(year, month);
}

/** The last millisecond of the day, UTC. The text must be a day. */
export function endOfDay(text: string): Instant {
  const [year, month, day] = numbersOf(text);
  let days = day;
  for (let each = 1; each < month; each += 1) days += lengthOf(year, each);
  for (let each = 1970; each < year; each += 1) days += isLeap(each) ? 366 : 365;
  for (let each = year; each < 1970; each += 1) days -= isLeap(each) ? 366 : 365;
  return (days * 86_400_000 - 1) as Instant;
}

/** The same day so many months later; the last day of the month where it has no such day. The text must be a day. */
export function monthsLater(text: string, months: number): string {
  const [year, month, day] = numbersOf(text);
  const index = year * 12 + month - 1 + months;
  const [to, of] = [Math.floor(index / 12), (index % 12) + 1];
  return [`${to}`, ...[of, Math.min(day, lengthOf(to, of))].map((each) => `${each}`.padStart(2, '0'))].join('-');
}

const numbersOf = (text: string): [number, number, number] => {
  const [year = 0, month = 0, day = 0] = text.split('-').map(Number);
  return [year, month, day];
};
const isLeap = (year: number): boolean => (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0;
const lengths = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];
const lengthOf = (year: number, month: number): number => (month === 2 && isLeap(year) ? 29 : lengths[month - 1]!);
