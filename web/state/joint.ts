/**
 * Following one joint while its page is open: state first, then the live line from that position on.
 * Whoever draws the chart hands in a listener for the raw readings.
 */
import { type Signal, signal } from '@preact/signals';
import type { JointState, LiveMessage, LiveReading, TimelineEvent } from '../../server/screen/contract.ts';
import { getJson } from '../feed/http.ts';
import { beginLive, hasTurned, type LiveJoint, takeLive } from '../feed/live-joint.ts';
import { liveLine } from './station.ts';

export type Loading<T> =
  | { readonly kind: 'loading' }
  | { readonly kind: 'there'; readonly value: T }
  | { readonly kind: 'failed'; readonly why: 'not found' | 'unreachable' | 'refused' };

export interface JointFeed {
  readonly live: Signal<Loading<LiveJoint>>;
  readonly timeline: Signal<readonly TimelineEvent[]>;
  /** Grows each time a break was mended: what was drawn before it is to be asked for again. */
  readonly mended: Signal<number>;
  /** Called with every reading that comes in. */
  listen(listener: (readings: readonly LiveReading[]) => void): () => void;
  refresh(): Promise<void>;
  stop(): void;
}

const refreshEvery = 30_000;

export const followJoint = (joint: string): JointFeed => {
  const path = `/api/joints/${encodeURIComponent(joint)}`;
  const live = signal<Loading<LiveJoint>>({ kind: 'loading' });
  const timeline = signal<readonly TimelineEvent[]>([]);
  const mended = signal(0);
  const listeners = new Set<(readings: readonly LiveReading[]) => void>();
  let stopped = false;
  let unfollow: (() => void) | undefined;

  const take = (message: LiveMessage): void => {
    const before = live.peek();
    if (before.kind !== 'there') return;
    const after = takeLive(before.value, message);
    if (after === before.value) return;
    live.value = { kind: 'there', value: after };
    for (const listener of listeners) listener(message.readings);
    if (hasTurned(before.value, after)) void refresh();
  };

  const refresh = async (): Promise<void> => {
    const [state, events] = await Promise.all([
      getJson<JointState>(path),
      getJson<readonly TimelineEvent[]>(`${path}/timeline`),
    ]);
    if (stopped) return;
    const before = live.peek();
    if (state.kind === 'ok') {
      live.value = { kind: 'there', value: beginLive(state.value, before.kind === 'there' ? before.value : undefined) };
      unfollow ??= liveLine().follow({
        joint,
        position: () => {
          const now = live.peek();
          return now.kind === 'there' ? now.value.position : 0;
        },
        live: take,
        resumed: () => {
          mended.value += 1;
          void refresh();
        },
      });
    } else if (before.kind !== 'there') {
      const why = state.kind === 'not found' || state.kind === 'unreachable' ? state.kind : 'refused';
      live.value = { kind: 'failed', why };
    }
    if (events.kind === 'ok') timeline.value = events.value;
  };

  void refresh();
  const timer = setInterval(() => void refresh(), refreshEvery);

  return {
    live,
    timeline,
    mended,
    listen(listener) {
      listeners.add(listener);
      return () => {
        listeners.delete(listener);
      };
    },
    refresh,
    stop() {
      stopped = true;
      clearInterval(timer);
      unfollow?.();
    },
  };
};
