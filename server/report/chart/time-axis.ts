/** Ticks on a local time axis: on round local times, also where the clocks change within the span. */
import { elapsed, type Instant, instant } from '../../measure/quantity.ts';
import { clockText, dateText } from '../../wording/time.ts';

export interface TimeTick {
  readonly at: Instant;
  /** "14:30". */
  readonly label: string;
  /** The date, at the first tick and at the first one of each new day. */
  readonly date?: string;
}

const minute = 60_000;
const day = 24 * 60;
/** Minutes between ticks; every one of them divides a day. */
const steps = [1, 2, 5, 10, 15, 30, 60, 120, 180, 360, 720, day] as const;

export const timeTicks = (from: Instant, to: Instant, zone: string, ticksMaximum = 9): TimeTick[] => {
  const spanMinutes = elapsed(from, to) / minute;
  const step = steps.find((each) => spanMinutes / each <= ticksMaximum) ?? day;
  const everyDays = step === day ? Math.ceil(spanMinutes / day / ticksMaximum) : 1;
  // Zones differ from UTC by whole quarters of an hour, so that every round local time is met.
  const grain = Math.min(step, 15) * minute;
  const ticks: TimeTick[] = [];
  let days = 0;
  let lastDate = '';
  for (let at = Math.ceil(from / grain) * grain; at <= to; at += grain) {
    const [hours = '0', minutes = '0'] = clockText(instant(at), zone).split(':');
    if ((Number(hours) * 60 + Number(minutes)) % step !== 0) continue;
    if (step === day && days++ % everyDays !== 0) continue;
    const date = dateText(instant(at), zone);
    ticks.push({ at: instant(at), label: `${hours}:${minutes}`, ...(date === lastDate ? {} : { date }) });
    lastDate = date;
  }
  return ticks;
};
