/** Which stretch of time the chart shows: following the present, or fixed. Moved by buttons only, so that everything works without a gesture. */

export type Span = 'all' | number;
export type Window =
  | { readonly kind: 'follow'; readonly span: Span }
  | { readonly kind: 'fixed'; readonly from: number; readonly to: number };

const minute = 60_000;
export const spans: readonly { readonly label: string; readonly span: Span }[] = [
  { label: '15 min', span: 15 * minute },
  { label: '1 h', span: 60 * minute },
  { label: 'All', span: 'all' },
];

const shortest = minute;

export interface Stretch {
  readonly from: number;
  readonly to: number;
}

/** `begin` is when the joint was opened, `now` the server's time. */
export const stretchOf = (window: Window, begin: number, now: number): Stretch => {
  if (window.kind === 'fixed') return { from: window.from, to: window.to };
  const length = window.span === 'all' ? Math.max(shortest, now - begin) : window.span;
  return { from: now - length, to: now };
};

export const zoomed = (window: Window, factor: number, begin: number, now: number): Window => {
  const { from, to } = stretchOf(window, begin, now);
  const length = Math.max(shortest, Math.min((to - from) * factor, Math.max(shortest, now - begin)));
  // While following, the present stays where it is; otherwise the middle does.
  if (window.kind === 'follow') return { kind: 'follow', span: length >= now - begin ? 'all' : length };
  const middle = (from + to) / 2;
  return within({ from: middle - length / 2, to: middle + length / 2 }, begin, now);
};

/** Half a window back (-1) or on (1). Going on past the present follows it again. */
export const moved = (window: Window, direction: -1 | 1, begin: number, now: number): Window => {
  const { from, to } = stretchOf(window, begin, now);
  const length = to - from;
  if (direction === 1 && to + length / 2 >= now)
    return { kind: 'follow', span: length >= now - begin ? 'all' : length };
  return within({ from: from + (direction * length) / 2, to: to + (direction * length) / 2 }, begin, now);
};

const within = ({ from, to }: Stretch, begin: number, now: number): Window => {
  const length = to - from;
  const start = Math.min(Math.max(from, begin), Math.max(begin, now - length));
  return { kind: 'fixed', from: start, to: start + length };
};
