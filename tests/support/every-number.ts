/** What must hold of the numbers that a board gave its samples: each ends as a reading, a late one or in a named gap, and none twice. */
import { expect } from 'vitest';
import type { Hole } from '../../server/weld/hole.ts';

export interface Numbered {
  readonly boot: number;
  readonly sequence: number;
}

/** Of one board, in the order in which it was told. Answers how many numbers there were. */
export function everyNumberEnds(readings: readonly Numbered[], holes: readonly Hole[], where = ''): number {
  let numbers = 0;
  for (const boot of new Set(readings.map((reading) => reading.boot))) {
    const all = readings.filter((reading) => reading.boot === boot).map(({ sequence }) => sequence);
    const read = new Set(all);
    expect(all.length, `${where}boot ${boot}: a number was read twice`).toBe(read.size);
    const highest = Math.max(...all);
    const named = new Map<number, number>();
    for (const { from, to, lost = 0 } of holes.filter((hole) => hole.boot === boot)) {
      let gone = 0;
      for (let number = from; number <= (to ?? highest); number += 1) {
        named.set(number, (named.get(number) ?? 0) + 1);
        if (!read.has(number)) gone += 1;
      }
      // Of a start of the board it is not known how many it would have measured.
      if (to !== undefined) expect(gone, `${where}boot ${boot}: hole ${from} to ${to}`).toBe(lost);
    }
    for (let number = Math.min(...all); number <= highest; number += 1) {
      numbers += 1;
      const times = named.get(number) ?? 0;
      expect(times, `${where}boot ${boot}: number ${number} is in ${times} holes`).toBeLessThanOrEqual(1);
      expect(read.has(number) || times === 1, `${where}boot ${boot}: number ${number} ended nowhere`).toBe(true);
    }
  }
  return numbers;
}
