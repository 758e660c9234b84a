/** What a restart learns of a chain beside its judgement. */
import { limits } from '../measure/limits.ts';
import type { Instant } from '../measure/quantity.ts';
import { arrival, type Input } from '../weld/entry.ts';
import type { Hole } from '../weld/hole.ts';
import type { Scan } from '../weld/scan.ts';
import type { HeardBefore } from '../wire/board-book.ts';
import { createSequenceWatch } from '../wire/sequence-watch.ts';

/** Of all joints that go on; a board may be read for several of them. */
export interface Learnt {
  /** Newest scan of each board. */
  readonly scans: Map<string, Scan>;
  /** Which of the samples of its newest starts came, for asking again for the others; newest start last. */
  readonly boards: Map<string, readonly HeardBefore[]>;
}

export const nothingLearnt = (): Learnt => ({ scans: new Map(), boards: new Map() });

/** Looks at what goes by: what was heard of each board, and how far time had come. */
export function* watched(inputs: Iterable<Input>, learnt: Learnt, notBefore: (at: Instant) => void): Iterable<Input> {
  let last = 0 as Instant;
  const boards = new Map<string, Start[]>();
  const of = (board: string): Start[] => boards.get(board) ?? boards.set(board, []).get(board)!;
  for (const input of inputs) {
    if (input.type === 'scan') {
      learnt.scans.set(input.scan.board, input.scan);
      takeScan(of(input.scan.board), input.scan);
    } else if (input.type === 'station' && input.event.kind === 'hole') takeHole(of(input.event.board), input.event);
    last = Math.max(last, arrival(input)) as Instant;
    yield input;
  }
  notBefore(last);
  for (const [board, starts] of boards) learnt.boards.set(board, longer(learnt.boards.get(board), starts));
}

type Start = { -readonly [key in keyof HeardBefore]: HeardBefore[key] };

function takeScan(starts: Start[], { boot, ticks, sequence, late }: Scan): void {
  const known = starts.find((start) => start.boot === boot);
  if (known !== undefined) {
    known.watch.isNew(sequence, late);
    known.ticks = Math.max(known.ticks, ticks);
    if (late || known === starts.at(-1)) return;
    // Another board had taken its name, and now it is back.
    starts.push(...starts.splice(starts.indexOf(known), 1));
    return;
  }
  // A late line belongs to a start that is known, or to one long ago: nothing begins with it.
  if (late && starts.length > 0) return;
  const watch = createSequenceWatch();
  // Of a start that began while it was read its first numbers are missing too.
  watch.restart(starts.length > 0);
  watch.isNew(sequence, false);
  starts.push({ boot, ticks, watch, settledBelow: 0, over: false });
  if (starts.length > limits.startsRemembered) starts.shift();
}

function takeHole(starts: readonly Start[], { boot, from, to }: Hole): void {
  const start = starts.find((each) => each.boot === boot);
  if (start === undefined) return;
  start.settledBelow = Math.max(start.settledBelow, (to ?? from - 1) + 1);
  start.watch.giveUp(from, to ?? from);
  if (to === undefined) start.over = true;
}

/** Two joints of one board: the one whose record goes further knows more. */
const longer = (one: readonly HeardBefore[] | undefined, other: readonly HeardBefore[]): readonly HeardBefore[] => {
  const [a, b] = [one?.at(-1), other.at(-1)];
  if (one === undefined || a === undefined) return other;
  if (b === undefined) return one;
  if (a.boot !== b.boot) return one.some(({ boot }) => boot === b.boot) ? one : other;
  return (a.watch.highest() ?? 0) >= (b.watch.highest() ?? 0) ? one : other;
};
