/** A temperature axis on round degrees that holds every value, and every limit that does not squeeze them flat. */

export interface ValueAxis {
  /** Degrees Celsius. */
  readonly lowest: number;
  readonly highest: number;
  readonly ticks: readonly number[];
}

const steps = [5, 10, 20, 25, 50, 100, 200, 250, 500] as const;

/** All in thousandths of a degree. A limit further above the values than their own span again is left out; the chart then says so. */
export const valueAxis = (values: Iterable<number>, limits: readonly number[]): ValueAxis => {
  let lowest = Number.POSITIVE_INFINITY;
  let highest = Number.NEGATIVE_INFINITY;
  for (const value of values) {
    if (value < lowest) lowest = value;
    if (value > highest) highest = value;
  }
  const none = lowest > highest;
  const bottom = none ? Math.min(0, ...limits) : lowest;
  const top = none ? Math.max(100_000, ...limits) : highest;
  const reach = top + Math.max(top - bottom, 100_000);
  const shown = limits.filter((limit) => limit <= reach);
  const from = Math.min(bottom, ...shown) / 1000;
  const to = Math.max(top, ...shown) / 1000;
  const step = steps.find((each) => (to - from) / each <= 8) ?? 1000;
  const floor = Math.floor(from / step) * step;
  // Air below a limit that lies on the floor: its wrong side has to be seen.
  const first = shown.some((limit) => limit / 1000 < floor + step * 0.1) ? floor - step : floor;
  // A little air above, so that a limit at the very top and its name are seen.
  const last = Math.ceil((to + step * 0.3) / step) * step;
  const ticks: number[] = [];
  for (let tick = first; tick <= last; tick += step) ticks.push(tick);
  return { lowest: first, highest: last, ticks };
};
