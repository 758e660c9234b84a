/**
 * Whether anybody could see this page, and whether it ran: a page in the background or on a device that slept has
 * missed what happened. Told from the ticks of its own clock.
 */
import { blindBounds } from './bounds.ts';

export interface Away {
  readonly why: 'background' | 'stood still';
  readonly forMilliseconds: number;
  /** This device's monotonic clock when it was over. */
  readonly endedAt: number;
}

export interface Presence {
  readonly tickedAt: number;
  readonly hiddenSince?: number;
  readonly away?: Away;
}

export const presenceAt = (now: number, hidden: boolean): Presence => ({
  tickedAt: now,
  ...(hidden ? { hiddenSince: now } : {}),
});

/** The page's clock moved on: `now` on this device's monotonic clock. */
export const presenceAfter = (before: Presence, now: number, hidden: boolean): Presence => {
  const { hiddenSince } = before;
  if (hidden) return { ...before, tickedAt: now, hiddenSince: hiddenSince ?? now };
  const away =
    hiddenSince === undefined
      ? awayFor('stood still', now - before.tickedAt, blindBounds.stoodStill, now)
      : awayFor('background', now - hiddenSince, blindBounds.away, now);
  const told = away ?? before.away;
  return { tickedAt: now, ...(told === undefined ? {} : { away: told }) };
};

const awayFor = (why: Away['why'], forMilliseconds: number, bound: number, now: number): Away | undefined =>
  forMilliseconds < bound ? undefined : { why, forMilliseconds, endedAt: now };
