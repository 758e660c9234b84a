/**
 * Local time of a zone of the IANA time zone database, named by a person, to instants. Twice a year a zone has an hour that no
 * clock shows, or one that it shows twice; both are told, and which of the two holds is for the order of the rows to say.
 */
import type { Instant } from '../measure/quantity.ts';

export interface ZonedTime {
  readonly at: Instant;
  /** The clock shows this time twice: `at` is the first, this the second. */
  readonly secondAt?: Instant;
  /** No clock of the zone shows this time; `at` counts on from before the change. */
  readonly isSkipped?: true;
}

/** Milliseconds of a local time, on a line where it counts like UTC, to the instant. */
export type ZoneClock = (local: number) => ZonedTime;

/** Undefined: there is no such zone. */
export const zoneClock = (zone: string): ZoneClock | undefined => {
  // An offset or an abbreviation would be taken by some engines; neither is a zone that knows its changes.
  if (!/^([A-Za-z]+\/[A-Za-z0-9_+/-]+|UTC)$/.test(zone)) return undefined;
  let format: Intl.DateTimeFormat;
  try {
    format = new Intl.DateTimeFormat('en-US', { timeZone: zone, hourCycle: 'h23', ...parts });
  } catch {
    return undefined;
  }
  const offsetAt = slotwise((instant) => localOf(format, instant) - instant);
  return (local) => {
    const before = offsetAt(local - dayMilliseconds);
    const after = offsetAt(local + dayMilliseconds);
    const first = local - Math.max(before, after);
    const second = local - Math.min(before, after);
    const firstHolds = offsetAt(first) === local - first;
    const secondHolds = offsetAt(second) === local - second;
    if (firstHolds && secondHolds && first !== second) return { at: first as Instant, secondAt: second as Instant };
    if (firstHolds) return { at: first as Instant };
    if (secondHolds) return { at: second as Instant };
    return { at: (local - before) as Instant, isSkipped: true };
  };
};

const dayMilliseconds = 86_400_000;
/** Zones have changed their offsets on quarters of an hour only, since before there were loggers. */
const slotMilliseconds = 900_000;
const slotsKept = 1000;

const parts = {
  year: 'numeric',
  month: 'numeric',
  day: 'numeric',
  hour: 'numeric',
  minute: 'numeric',
  second: 'numeric',
} as const;

/** A long log asks for the same quarter of an hour very often. */
const slotwise = (offsetOf: (instant: number) => number): ((instant: number) => number) => {
  const known = new Map<number, number>();
  return (instant) => {
    const slot = Math.floor(instant / slotMilliseconds);
    const found = known.get(slot);
    if (found !== undefined) return found;
    if (known.size >= slotsKept) known.clear();
    const offset = offsetOf(slot * slotMilliseconds);
    known.set(slot, offset);
    return offset;
  };
};

const localOf = (format: Intl.DateTimeFormat, instant: number): number => {
  const found = new Map<string, number>(format.formatToParts(instant).map(({ type, value }) => [type, Number(value)]));
  const of = (type: string): number => found.get(type) ?? 0;
  return Date.UTC(of('year'), of('month') - 1, of('day'), of('hour'), of('minute'), of('second'));
};
