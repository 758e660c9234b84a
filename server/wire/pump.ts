/**
 * Writes to a descriptor that does not block and that may be full. The runtime's own stream for terminals
 * spins for ever when nobody reads the other end; this one waits a little, holds a bounded number of bytes,
 * and lets go of them when the other end has taken nothing for a second.
 */
import { writeSync } from 'node:fs';
import { limits } from '../measure/limits.ts';

export interface Pump {
  /** False if the bytes were dropped because too many wait. */
  write(bytes: string): boolean;
  /** Resolves when nothing waits. */
  drained(): Promise<void>;
  close(): void;
}

const retryMilliseconds = 1;
const patienceMilliseconds = 1_000;

export const createPump = (descriptor: number): Pump => {
  let waiting: Buffer = Buffer.alloc(0);
  let retry: NodeJS.Timeout | undefined;
  let stuckMilliseconds = 0;
  let closed = false;
  let calls: (() => void)[] = [];

  const empty = (): void => {
    waiting = Buffer.alloc(0);
    const resolve = calls;
    calls = [];
    for (const call of resolve) call();
  };

  const push = (): void => {
    retry = undefined;
    const taken = closed ? waiting.length : tryWrite(descriptor, waiting);
    waiting = waiting.subarray(taken);
    if (taken > 0) stuckMilliseconds = 0;
    if (waiting.length > 0) stuckMilliseconds += retryMilliseconds;
    // Once patience has run out it stays so until bytes are taken again: each write is tried once and let go.
    if (waiting.length === 0 || stuckMilliseconds >= patienceMilliseconds) empty();
    else retry = setTimeout(push, retryMilliseconds);
  };

  return {
    write: (bytes) => {
      if (closed || bytes === '') return !closed;
      if (waiting.length + bytes.length > limits.pseudoTerminalWaitingMaximum) return false;
      waiting = Buffer.concat([waiting, Buffer.from(bytes, 'latin1')]);
      if (retry === undefined) push();
      return true;
    },
    drained: () => (waiting.length === 0 ? Promise.resolve() : new Promise((resolve) => calls.push(resolve))),
    close: () => {
      closed = true;
      clearTimeout(retry);
      empty();
    },
  };
};

/** Bytes taken by the system: none while it is full. Any other failure takes all, since the other end is gone. */
const tryWrite = (descriptor: number, bytes: Buffer): number => {
  try {
    return writeSync(descriptor, bytes);
  } catch (error) {
    return (error as NodeJS.ErrnoException).code === 'EAGAIN' ? 0 : bytes.length;
  }
};
