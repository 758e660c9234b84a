/** Captures of ports, kept as files in a folder beside the record; bounded in time, size and number. */
import { appendFileSync, mkdirSync, readdirSync, readFileSync, rmSync, statSync } from 'node:fs';
import { join } from 'node:path';
import type { Clock } from '../measure/clock.ts';
import { limits } from '../measure/limits.ts';
import { type Instant, milliseconds } from '../measure/quantity.ts';
import { captureHead, captureIsFull, captureLine } from '../wire/capture.ts';
import type { Heard } from './heard.ts';

export interface Captures {
  /** Its name. A capture of the same port that runs goes on, and its name is answered. Throws where the disk refuses. */
  begin(port: string, bytes: HeardBytes, minutes: number): string;
  end(port: string): void;
  running(port: string): { readonly name: string; readonly until: Instant } | undefined;
  list(): { readonly name: string; readonly bytes: number; readonly isRunning: boolean }[];
  read(name: string): Uint8Array | undefined;
  close(): void;
}

type HeardBytes = NonNullable<Heard['bytes']>;

interface Running {
  readonly name: string;
  readonly until: Instant;
  readonly stop: () => void;
}

const flushEvery = milliseconds(1000);
const named = /^[0-9T-]{10,40}Z?-[A-Za-z0-9._-]{1,60}\.capture$/;

export function createCaptures(folder: string, clock: Clock, tell: (line: string) => void): Captures {
  const running = new Map<string, Running>();

  const begin = (port: string, bytesOf: HeardBytes, minutes: number): string => {
    const known = running.get(port);
    if (known !== undefined) return known.name;
    mkdirSync(folder, { recursive: true });
    forgetOldest();
    const name = `${new Date(clock.wall()).toISOString().replace(/[:.]/g, '-')}-${port.replace(/[^A-Za-z0-9._-]+/g, '_').slice(-60)}.capture`;
    const path = join(folder, name);
    const began = clock.monotonic();
    let bytes = 0;
    let waiting = captureHead(port, clock.wall());
    let cancel = (): void => {};
    const flush = (): void => {
      if (waiting === '') return;
      try {
        appendFileSync(path, waiting, 'latin1');
      } catch (cause) {
        tell(`The capture ${name} ends: ${(cause as Error).message}`);
        stop(false);
      }
      bytes += waiting.length;
      waiting = '';
    };
    const untap = bytesOf.tap(({ kind, text, monotonic }) => {
      waiting += captureLine({ kind, text, milliseconds: monotonic - began });
    });
    const stop = (isWritable = true): void => {
      cancel();
      untap();
      running.delete(port);
      if (isWritable) flush();
    };
    const eachSecond = (): void => {
      flush();
      if (captureIsFull({ bytes, milliseconds: clock.monotonic() - began }, minutes)) stop();
      else if (running.has(port)) cancel = clock.after(flushEvery, eachSecond);
    };
    running.set(port, { name, until: (clock.wall() + minutes * 60_000) as Instant, stop });
    for (const event of bytesOf.asOpened()) waiting += captureLine({ ...event, milliseconds: 0 });
    cancel = clock.after(flushEvery, eachSecond);
    return name;
  };

  const names = (): string[] => {
    try {
      return readdirSync(folder)
        .filter((name) => named.test(name))
        .sort();
    } catch {
      return [];
    }
  };

  const forgetOldest = (): void => {
    const all = names();
    for (const name of all.slice(0, Math.max(0, all.length - limits.capturesKept + 1)))
      if (![...running.values()].some((each) => each.name === name)) rmSync(join(folder, name), { force: true });
  };

  return {
    begin,
    end: (port) => running.get(port)?.stop(),
    running: (port) => running.get(port),
    list: () =>
      names()
        .reverse()
        .map((name) => ({
          name,
          bytes: statSync(join(folder, name), { throwIfNoEntry: false })?.size ?? 0,
          isRunning: [...running.values()].some((each) => each.name === name),
        })),
    read: (name) => (named.test(name) && names().includes(name) ? readFileSync(join(folder, name)) : undefined),
    close: () => {
      for (const { stop } of [...running.values()]) stop();
    },
  };
}
