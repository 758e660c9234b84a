/** Times as this report prints them: short where the record lies within one day and one offset, full where it does not. */
import type { Instant } from '../measure/quantity.ts';
import { clockText, dateText, instantText } from '../wording/time.ts';
import type { ReportFacts } from './facts.ts';

export interface Times {
  /** "14:03:22"; with its date where the record spans several, with its offset where the clocks changed. */
  when(instant: Instant): string;
  /** "14:03:22 to 14:05:10", "2026-11-25 14:03:22 to 14:05:10", "since 14:03:22". */
  span(from: Instant, to: Instant | undefined): string;
  /** "2026-11-25 14:03:22 UTC+01:00". */
  full(instant: Instant): string;
  /** One sentence that says how the times are to be read. */
  readonly explained: string;
}

export const timesOf = ({ openedAt, lastAt, zone }: Pick<ReportFacts, 'openedAt' | 'lastAt' | 'zone'>): Times => {
  const first = dateText(openedAt, zone);
  const severalDays = first !== dateText(lastAt, zone);
  const [offset, lastOffset] = [offsetText(openedAt, zone), offsetText(lastAt, zone)];
  const when = (instant: Instant): string => {
    if (offset !== lastOffset) return instantText(instant, zone);
    const date = dateText(instant, zone);
    return severalDays || date !== first ? `${date} ${clockText(instant, zone)}` : clockText(instant, zone);
  };
  return {
    when,
    span: (from, to) => {
      if (to === undefined) return `since ${when(from)}`;
      if (to === from) return when(from);
      const isOneDay = offset === lastOffset && dateText(from, zone) === dateText(to, zone);
      return `${when(from)} to ${isOneDay ? clockText(to, zone) : when(to)}`;
    },
    full: (instant) => instantText(instant, zone),
    explained:
      offset === lastOffset
        ? `Times are local times of ${zone} (${offset})${severalDays ? '' : ` on ${first}`}, 24 h clock.`
        : `Times are local times of ${zone}, 24 h clock. The clocks changed during this record, so that each time carries its offset from UTC.`,
  };
};

/** "UTC" or "UTC+01:00". */
export const offsetText = (instant: Instant, zone: string): string =>
  instantText(instant, zone).split(' ').at(-1) ?? 'UTC';
