/**
 * A part of the page's own program that is fetched when it is first needed. A line that breaks meanwhile must not leave
 * the page without it until somebody thinks of loading it again: it is asked for until it comes.
 */
import { partAgainMilliseconds } from './bounds.ts';

export interface Fetching<T> {
  readonly here: (part: T) => void;
  /** At each failure; it is asked for again all the same. */
  readonly failed: () => void;
}

/** Returns what ends the asking, after which nothing more is told. */
export function fetchPart<T>(load: () => Promise<T>, { here, failed }: Fetching<T>): () => void {
  let ended = false;
  let again: ReturnType<typeof setTimeout> | undefined;
  const ask = (): void => {
    load().then(
      (part) => {
        if (!ended) here(part);
      },
      () => {
        if (ended) return;
        again = setTimeout(ask, partAgainMilliseconds);
        failed();
      },
    );
  };
  ask();
  return () => {
    ended = true;
    clearTimeout(again);
  };
}
