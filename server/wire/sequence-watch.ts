/**
 * Which sample lines of one board came, came twice, or never came. The memory is bounded: a number that was
 * forgotten stays missing, and its line, sent again, is not taken, since it might have come before.
 */
import { limits } from '../measure/limits.ts';

export interface SequenceWatch {
  /** A new start of the board. fromZero: it was watched before, so that its first lines count as missing too. */
  restart(fromZero: boolean): void;
  /** False if the line was here before. */
  isNew(sequence: number, resent: boolean): boolean;
  /** Sequence numbers that never came, over all starts. */
  missing(): number;
  /** The lowest number of this start, from this one on, that did not come and may still be filled. */
  lowestMissing(from: number): number | undefined;
  /** How many of this start did not come, both ends included. */
  missingBetween(from: number, to: number): number;
  /** What is missing of these stays missing, both ends included: its lines are no longer taken. */
  giveUp(from: number, to: number): void;
  /** The newest of this start; undefined before its first. */
  highest(): number | undefined;
}

export const createSequenceWatch = (): SequenceWatch => {
  let highest: number | undefined;
  let lowest = 0;
  /** Missing numbers of this start that may still be filled. */
  let gaps = new Set<number>();
  /** Lines from before the watch began that were sent again. */
  let earlier = new Set<number>();
  let missing = 0;

  const note = (from: number, to: number): void => {
    missing += to - from;
    for (let sequence = Math.max(from, to - limits.missingRememberedMaximum); sequence < to; sequence += 1) {
      remember(gaps, sequence);
    }
  };

  const isNewest = (sequence: number): true => {
    if (highest !== undefined) note(highest + 1, sequence);
    highest = sequence;
    return true;
  };

  const isNewResent = (sequence: number): boolean => {
    if (gaps.delete(sequence)) {
      missing -= 1;
      return true;
    }
    // Sent again before its first line came through: it is the newest.
    if (highest !== undefined && sequence > highest) return isNewest(sequence);
    if (highest !== undefined && sequence >= lowest) return false;
    if (earlier.has(sequence)) return false;
    remember(earlier, sequence);
    return true;
  };

  return {
    restart: (fromZero) => {
      highest = fromZero ? -1 : undefined;
      lowest = 0;
      gaps = new Set();
      earlier = new Set();
    },
    isNew: (sequence, resent) => {
      if (resent) return isNewResent(sequence);
      if (highest === undefined) lowest = sequence;
      return highest !== undefined && sequence <= highest ? false : isNewest(sequence);
    },
    missing: () => missing,
    // The set is in the order in which numbers went missing, which is the order of the numbers.
    lowestMissing: (from) => {
      for (const sequence of gaps) if (sequence >= from) return sequence;
      return undefined;
    },
    missingBetween: (from, to) => {
      let count = 0;
      for (const sequence of gaps) if (sequence >= from && sequence <= to) count += 1;
      return count;
    },
    giveUp: (from, to) => {
      for (const sequence of gaps) if (sequence >= from && sequence <= to) gaps.delete(sequence);
    },
    highest: () => (highest === undefined || highest < 0 ? undefined : highest),
  };
};

/** Adds to a set that forgets its oldest at the bound. */
const remember = (set: Set<number>, value: number): void => {
  set.add(value);
  if (set.size > limits.missingRememberedMaximum) {
    for (const oldest of set) {
      set.delete(oldest);
      break;
    }
  }
};
