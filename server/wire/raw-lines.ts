/** The newest lines of a port as they came, for a person who looks for what is wrong. Bounded. */
import type { Instant } from '../measure/quantity.ts';
import type { LineFault } from './conversation.ts';

export interface RawLine {
  /** Counts all lines of this link, so that a reader knows what is new. */
  readonly number: number;
  readonly at: Instant;
  /** What the station wrote, or what came. */
  readonly way: 'in' | 'out';
  readonly text: string;
  readonly fault?: LineFault;
}

export interface RawLines {
  add(at: Instant, way: RawLine['way'], text: string, fault?: LineFault): void;
  /** Those after the number, oldest first. */
  after(number: number): readonly RawLine[];
}

export function createRawLines(kept: number): RawLines {
  const ring: RawLine[] = [];
  let count = 0;
  return {
    add: (at, way, text, fault) => {
      // A ring that is written over, since lines come many times a second.
      const line: RawLine = { number: count + 1, at, way, text, ...(fault === undefined ? {} : { fault }) };
      ring[count % kept] = line;
      count += 1;
    },
    after: (number) => ring.filter((line) => line.number > number).sort((a, b) => a.number - b.number),
  };
}
