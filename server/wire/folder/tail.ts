/**
 * One file that another program goes on writing: what was added since it was last looked at, as whole lines. A half-written
 * last line waits for its end; a file that was cut short or written anew is named. Knows no disk: it is told sizes and bytes.
 */
import { limits } from '../../measure/limits.ts';

export interface TailAdded {
  /** Whole lines, their ends included; empty where there is nothing new. */
  readonly bytes: Uint8Array;
  /** Where in the file they begin. */
  readonly from: number;
  /** It does not hold what it held before: everything in it is given again. */
  readonly anew: boolean;
}

/** Bytes of the file from one place to another, as many as are there. */
export type ReadPart = (from: number, to: number) => Promise<Uint8Array>;

export interface Tail {
  added(size: number, read: ReadPart): Promise<TailAdded>;
}

/** Last bytes that were taken: what stands there now tells a file that was written anew. */
const remembered = 64;

/** `from`: where its lines begin that are not passed over; the size of the file where only what comes is wanted. */
export const createTail = (): Tail & { skipTo(size: number, read: ReadPart): Promise<void> } => {
  let at = 0;
  let before = new Uint8Array(0);

  const startAnew = (): void => {
    at = 0;
    before = new Uint8Array(0);
  };

  const stillHolds = async (read: ReadPart): Promise<boolean> => {
    if (before.length === 0) return true;
    const now = await read(at - before.length, at);
    return now.length === before.length && now.every((byte, index) => byte === before[index]);
  };

  const take = (bytes: Uint8Array): void => {
    at += bytes.length;
    const both = new Uint8Array(before.length + bytes.length);
    both.set(before);
    both.set(bytes, before.length);
    before = both.slice(-remembered);
  };

  return {
    async skipTo(size, read) {
      // To the end of the last whole line: half a line is still to come.
      const from = Math.max(0, size - limits.textLineMaximum);
      const last = await read(from, size);
      at = from;
      take(last.subarray(0, last.lastIndexOf(lineFeed) + 1));
    },
    async added(size, read) {
      const anew = size < at || !(await stillHolds(read));
      if (anew) startAnew();
      if (size <= at) return { bytes: new Uint8Array(0), from: at, anew };
      const from = at;
      const to = Math.min(size, at + limits.folderPartMaximum);
      const came = await read(at, to);
      const bytes = came.subarray(0, came.lastIndexOf(lineFeed) + 1);
      take(bytes);
      return { bytes, from, anew };
    },
  };
};

const lineFeed = 10;
