/** All that goes over one port, for whoever captures it: bytes both ways, each opening and each loss, with its time. */
import type { Clock } from '../measure/clock.ts';

export interface Traffic {
  readonly kind: 'open' | 'in' | 'out' | 'lost';
  /** Characters of code 0 to 255; of an opening its speed, of a loss its cause. */
  readonly text: string;
  /** On the clock that does not step, and on the wall. */
  readonly monotonic: number;
  readonly wall: number;
}

export type Hear = (traffic: Traffic) => void;

export interface Taps {
  add(hear: Hear): () => void;
  tell(kind: Traffic['kind'], content: Uint8Array | string): void;
}

export function createTaps(clock: Clock): Taps {
  const taps = new Set<Hear>();
  return {
    add: (hear) => {
      taps.add(hear);
      return () => taps.delete(hear);
    },
    tell: (kind, content) => {
      if (taps.size === 0) return;
      const text = typeof content === 'string' ? content : Buffer.from(content).toString('latin1');
      for (const hear of taps) hear({ kind, text, monotonic: clock.monotonic(), wall: clock.wall() });
    },
  };
}
