/** How many there were, and how they spread: the middle one and the quartiles, between two neighbours in proportion. */
export interface Spread {
  readonly n: number;
  /** Absent where there is none. */
  readonly lowest?: number;
  readonly lowerQuartile?: number;
  readonly median?: number;
  readonly upperQuartile?: number;
  readonly highest?: number;
}

export function spreadOf(values: readonly number[]): Spread {
  if (values.length === 0) return { n: 0 };
  const sorted = values.toSorted((a, b) => a - b);
  const at = (share: number): number => {
    const place = (sorted.length - 1) * share;
    const below = sorted[Math.floor(place)]!;
    const above = sorted[Math.ceil(place)]!;
    return below + (above - below) * (place - Math.floor(place));
  };
  return {
    n: sorted.length,
    lowest: sorted[0]!,
    lowerQuartile: at(0.25),
    median: at(0.5),
    upperQuartile: at(0.75),
    highest: sorted.at(-1)!,
  };
}
