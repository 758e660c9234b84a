/**
 * When the page last heard the station, and what time it is there. The page has no say in what time it
 * is: server time is what the server last said plus what this device's monotonic clock counted since.
 */
import type { Instant } from '../../server/measure/quantity.ts';
import { blindBounds } from './bounds.ts';

export interface Heard {
  readonly serverNow: Instant;
  /** This device's monotonic clock when it was heard, milliseconds. */
  readonly monotonic: number;
}

export const serverTime = (heard: Heard, monotonic: number): Instant =>
  Math.round(heard.serverNow + silence(heard, monotonic)) as Instant;

/** Milliseconds since the station was last heard. */
const silence = (heard: Heard, monotonic: number): number => Math.max(0, monotonic - heard.monotonic);

export type Contact =
  | { readonly kind: 'never heard'; readonly forMilliseconds: number }
  | { readonly kind: 'live'; readonly now: Instant }
  | { readonly kind: 'blind'; readonly now: Instant; readonly forMilliseconds: number };

/** Whether the page may be believed. `openedAt` is the monotonic clock when the page was opened. */
export const contactNow = (heard: Heard | undefined, openedAt: number, monotonic: number): Contact => {
  if (heard === undefined) return { kind: 'never heard', forMilliseconds: Math.max(0, monotonic - openedAt) };
  const since = silence(heard, monotonic);
  const now = serverTime(heard, monotonic);
  return since > blindBounds.noWord ? { kind: 'blind', now, forMilliseconds: since } : { kind: 'live', now };
};
