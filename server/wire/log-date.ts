/**
 * A date as instruments and spreadsheets write it, in every order in which it can be read. Which order holds is not for one
 * date to say: 03/04/2026 has two readings, and only the whole column, or a person, tells them apart.
 */

export const dateOrders = ['year month day', 'day month year', 'month day year'] as const;
export type DateOrder = (typeof dateOrders)[number];

export interface DateRead {
  /** In which it could be meant by the way it is written. */
  readonly orders: readonly DateOrder[];
  /** Milliseconds of each order that names a day of the calendar, on a line where local time counts like UTC. */
  readonly readings: readonly (readonly [DateOrder, number])[];
  /** As written; absent where the text states none. */
  readonly offset: string | undefined;
  readonly hasTime: boolean;
}

/** Undefined: the text is no date. Without any reading it is one that no calendar has. */
export const readDate = (text: string): DateRead | undefined => {
  const compact = compactForm.exec(text);
  if (compact !== null) {
    const [, date, hour, minute, second, offset] = compact;
    return read(digits(date!), ['year month day'], `${hour}:${minute}:${second ?? '00'}`, offset);
  }
  const numeric = numericForm.exec(text);
  if (numeric !== null) {
    const [, first, mark, second, third, rest] = numeric;
    const count = [first, second, third].map(Number) as unknown as Three;
    return read(count, ordersOf(first!, mark!, third!), rest);
  }
  const named = dayFirst.exec(text);
  if (named !== null) return ofNamedMonth(named[1]!, named[2]!, named[3]!, named[4]);
  const american = monthFirst.exec(text);
  if (american !== null) return ofNamedMonth(american[2]!, american[1]!, american[3]!, american[4]);
  return undefined;
};

/** Milliseconds since midnight of a time of day; undefined where it is none. */
export const readTimeOfDay = (text: string): number | undefined => {
  const found = timeOfDay.exec(text.trim());
  if (found === null || found[6] !== undefined) return undefined;
  return sizeOf(found);
};

type Three = readonly [number, number, number];

const compactForm = /^(\d{8})[T ]?(\d{2}):?(\d{2})(?::?(\d{2}))? ?(Z|UTC|[+-]\d{2}:?\d{2})?$/i;
const numericForm = /^(?:[^\W\d]{2,10}\.?,? )?(\d{4}|\d{1,2})([-./])(\d{1,2})\2(\d{4}|\d{2})(?:,? ?T?(.+))?$/i;
const dayFirst = /^(?:[^\W\d]{2,10}\.?,? )?(\d{1,2})[-. ]{1,2}(\p{L}{3,9})\.?[-, ]{1,2}(\d{4}|\d{2})(?:,? ?(.+))?$/iu;
const monthFirst = /^(?:[^\W\d]{2,10}\.?,? )?(\p{L}{3,9})\.?[- ](\d{1,2}),? (\d{4})(?:,? ?(.+))?$/iu;
const timeOfDay = /^(\d{1,2}):(\d{2})(?::(\d{2})(?:[.,:](\d{1,9}))?)? ?([ap]\.? ?m\.?)? ?(Z|UTC|[+-]\d{1,2}:?\d{2})?$/i;

const digits = (date: string): Three => [Number(date.slice(0, 4)), Number(date.slice(4, 6)), Number(date.slice(6))];

/** A year of four digits stands first or last; one of two may stand first as well. Points are not written in month-first order. */
const ordersOf = (first: string, mark: string, third: string): readonly DateOrder[] => {
  if (first.length === 4) return ['year month day'];
  if (third.length === 4) return mark === '.' ? ['day month year'] : ['day month year', 'month day year'];
  return mark === '.' ? ['year month day', 'day month year'] : dateOrders;
};

const ofNamedMonth = (day: string, name: string, year: string, rest: string | undefined): DateRead | undefined => {
  const month = months.findIndex((starts) => starts.some((start) => name.toLowerCase().startsWith(start)));
  return month === -1 ? undefined : read([Number(day), month + 1, Number(year)], ['day month year'], rest);
};

/** English, German, French and Spanish, which between them begin each month in these ways. */
const months: readonly (readonly string[])[] = [
  ['jan', 'ene'],
  ['feb', 'fév', 'fev'],
  ['mar', 'mär', 'mrz'],
  ['apr', 'avr', 'abr'],
  ['may', 'mai'],
  ['jun', 'juin'],
  ['jul', 'juil'],
  ['aug', 'aoû', 'aou', 'ago'],
  ['sep'],
  ['oct', 'okt'],
  ['nov'],
  ['dec', 'dez', 'déc', 'dic'],
];

const read = (
  parts: Three,
  orders: readonly DateOrder[],
  rest: string | undefined,
  stated?: string,
): DateRead | undefined => {
  const time = rest === undefined ? undefined : timeOfDay.exec(rest.trim());
  if (time === null) return undefined;
  const size = time === undefined ? 0 : sizeOf(time);
  const readings = orders.flatMap((order) => {
    const day = dayOf(parts, order);
    return day === undefined || size === undefined ? [] : [[order, day + size] as const];
  });
  return { orders, readings, offset: stated ?? time?.[6], hasTime: time !== undefined };
};

const dayOf = ([first, second, third]: Three, order: DateOrder): number | undefined => {
  const [year, month, day] =
    order === 'year month day'
      ? [first, second, third]
      : order === 'day month year'
        ? [third, second, first]
        : [third, first, second];
  // A year of two digits is of this century: no log of a weld is older.
  const full = year < 100 ? 2000 + year : year;
  const at = Date.UTC(full, month - 1, day);
  const back = new Date(at);
  return back.getUTCMonth() === month - 1 && back.getUTCDate() === day ? at : undefined;
};

const sizeOf = (found: readonly (string | undefined)[]): number | undefined => {
  const [, hourText, minute, second = '0', fraction, half] = found;
  let hour = Number(hourText);
  if (half !== undefined) {
    if (hour < 1 || hour > 12) return undefined;
    hour = (hour % 12) + (/^p/i.test(half) ? 12 : 0);
  }
  if (hour > 23 || Number(minute) > 59 || Number(second) > 59) return undefined;
  return ((hour * 60 + Number(minute)) * 60 + Number(second)) * 1000 + thousandths(fraction);
};

export const thousandths = (fraction: string | undefined): number =>
  fraction === undefined ? 0 : Math.round(Number(`0.${fraction}`) * 1000);
