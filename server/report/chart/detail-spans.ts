/** Into which pieces a long job is cut for a second, closer look: even ones, cut where nobody welds. Nothing is left out. */
import { type Instant, instant } from '../../measure/quantity.ts';
import type { Span } from './course.ts';

const hour = 3_600_000;
/** A job up to this long is seen well enough in one chart. */
export const overviewMaximum = 5 * hour;
const pieceLength = 3 * hour;
/** However many days it lasts. */
const piecesWanted = 8;

/** None for a job that one chart shows well. */
export const detailSpans = (work: Span, whole: Span, passes: readonly Span[]): Span[] => {
  if (whole.to - whole.from <= overviewMaximum) return [];
  const length = Math.max(pieceLength, (work.to - work.from) / piecesWanted);
  const spans: Span[] = [];
  let { from } = work;
  while (work.to - from > 1.35 * length) {
    const cut = quietest(from + 0.7 * length, from + 1.3 * length, passes);
    spans.push({ from, to: cut });
    from = cut;
  }
  return [...spans, { from, to: work.to }];
};

/** The middle of the longest time without a pass. */
const quietest = (from: number, to: number, passes: readonly Span[]): Instant => {
  let best = { from, to: from };
  let free = from;
  for (const pass of [...passes, { from: to, to }].toSorted((a, b) => a.from - b.from)) {
    const until = Math.min(Math.max(pass.from, from), to);
    if (until - free > best.to - best.from) best = { from: free, to: until };
    free = Math.max(free, Math.min(pass.to, to));
  }
  return instant(Math.round((best.from + best.to) / 2));
};
