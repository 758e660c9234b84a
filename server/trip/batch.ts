/** What is committed together, and who waits to be told of it. */
import { NotRecording, Refusal } from '../desk/refusal.ts';
import type { Item } from '../ledger/item.ts';
import { limits } from '../measure/limits.ts';
import type { Instant } from '../measure/quantity.ts';

export interface Asked {
  readonly done: (position: number) => void;
  readonly failed: (cause: Error) => void;
}

/** What came in and waits for its turn. */
export interface Queued {
  readonly at: Instant;
  /** Judges it and makes what is to be committed. Where somebody asked, it may throw Refusal. */
  readonly make: () => Item[];
  /** Readings may be dropped when the queue is full, and are counted; what a person did is not. */
  readonly reading: boolean;
  readonly asked?: Asked;
}

export interface Batch {
  /** The list itself is handed in again where the record failed: by that it is known, and never kept twice. */
  readonly items: Item[];
  /** Who waits for which item. */
  asked: { readonly asked: Asked; readonly index: number }[];
  /** Those who wait know that it was refused once. */
  toldRefused: boolean;
}

export const batchOf = (items: Item[]): Batch => ({ items, asked: [], toldRefused: false });

/**
 * What one commit can take, in order, where a batch holds more: as when much that had waited is concluded at once. What came in
 * stands first, so that it is in the first of them; a batch that fits stays the one that it is.
 */
export function portionsOf(batch: Batch, most: number): readonly Batch[] {
  if (batch.items.length <= most) return batch.items.length === 0 ? [] : [batch];
  const portions: Batch[] = [];
  for (let from = 0; from < batch.items.length; from += most) {
    const portion = batchOf(batch.items.slice(from, from + most));
    portion.asked = batch.asked
      .filter(({ index }) => index >= from && index < from + most)
      .map(({ asked, index }) => ({ asked, index: index - from }));
    portions.push(portion);
  }
  return portions;
}

/** No further input is taken from here on: room for what one input makes, well below what a commit may hold. */
const itemsEnough = limits.commitItemsMaximum / 4;

/** Takes what waits, in its order, and answers with what is left for the next batch. */
export function takeWaiting(batch: Batch, queue: readonly Queued[]): Queued[] {
  let taken = 0;
  for (; taken < queue.length && batch.items.length < itemsEnough; taken++) takeInto(batch, queue[taken]!);
  return queue.slice(taken);
}

function takeInto(batch: Batch, { make, asked }: Queued): void {
  const index = batch.items.length;
  try {
    batch.items.push(...make());
  } catch (cause) {
    if (asked === undefined || !(cause instanceof Refusal)) throw cause;
    asked.failed(cause);
    return;
  }
  if (asked !== undefined) batch.asked.push({ asked, index });
}

/** Whoever asked is told once, at the first failure; the act is kept and recorded as soon as the record takes it. */
export function tellRefused(batch: Batch, because: string): void {
  if (batch.toldRefused) return;
  batch.toldRefused = true;
  batch.asked = batch.asked.map(({ asked, index }) => {
    let done: (position: number) => void = () => {};
    const recorded = new Promise<number>((resolve) => {
      done = resolve;
    });
    asked.failed(new NotRecording(because, recorded));
    return { asked: { done, failed: () => {} }, index };
  });
}

/** Makes room in a queue that is full: the oldest reading goes, or else the oldest of the station's own words; what a person did stays. */
export function dropOldest(queue: Queued[]): 'reading' | 'word' | undefined {
  const oldestReading = queue.findIndex(({ reading }) => reading);
  const index = oldestReading >= 0 ? oldestReading : queue.findIndex(({ asked }) => asked === undefined);
  if (index < 0) return undefined;
  queue.splice(index, 1);
  return oldestReading >= 0 ? 'reading' : 'word';
}
