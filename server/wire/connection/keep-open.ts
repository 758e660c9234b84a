/** Keeps something open for as long as the station runs: opens it, notices the loss, waits, opens it again with nothing kept. */
import type { Clock } from '../../measure/clock.ts';
import { limits } from '../../measure/limits.ts';
import { milliseconds } from '../../measure/quantity.ts';

export interface Session {
  /** Whether anything was read in it: then the next try comes soon. */
  spoke(): boolean;
  /** Settles when what it held is free again. Never rejects. */
  close(): Promise<void>;
}

export interface KeepOpenOptions {
  readonly clock: Clock;
  /** Rejects where it cannot be opened. `lose` may be called once, at any time after; without a cause it was told already. */
  readonly open: (lose: (cause?: string) => void) => Promise<Session>;
  readonly onOpening: () => void;
  readonly onRefused: (error: Error) => void;
  /** `spoke`: whether anything was read before. */
  readonly onLost: (cause: string, spoke: boolean) => void;
}

export const keepOpen = ({
  clock,
  open,
  onOpening,
  onRefused,
  onLost,
}: KeepOpenOptions): { close(): Promise<void> } => {
  let closed = false;
  let stop = (): void => {};

  /** True if anything was read. */
  const once = async (): Promise<boolean> => {
    onOpening();
    let lose: (cause?: string) => void = () => {};
    const ended = new Promise<string | undefined>((resolve) => {
      lose = resolve;
      stop = () => resolve(undefined);
    });
    let session: Session;
    try {
      session = await open(lose);
    } catch (error) {
      if (!closed) onRefused(error instanceof Error ? error : new Error(String(error)));
      return false;
    }
    const cause = closed ? undefined : await ended;
    const spoke = session.spoke();
    await session.close();
    if (cause !== undefined && !closed) onLost(cause, spoke);
    return spoke;
  };

  const run = async (): Promise<void> => {
    let wait: number = limits.reopenFirstMilliseconds;
    while (!closed) {
      if (await once()) wait = limits.reopenFirstMilliseconds;
      if (closed) break;
      await new Promise<void>((resolve) => {
        const cancel = clock.after(milliseconds(wait), resolve);
        stop = () => {
          cancel();
          resolve();
        };
      });
      wait = Math.min(2 * wait, limits.reopenLongestMilliseconds);
    }
  };

  const running = run();
  return {
    async close() {
      closed = true;
      stop();
      await running;
    },
  };
};
