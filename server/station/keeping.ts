/**
 * Looks after the record as a whole: it is checked soon after the start and once a day at a quiet time, and copied then where
 * a place for copies was given. All of it beside the trip; no reading waits for it.
 */
import { join } from 'node:path';
import type { Errands } from '../errands/errands.ts';
import type { RecordCheck } from '../errands/keeping.ts';
import type { Clock } from '../measure/clock.ts';
import { type Instant, milliseconds } from '../measure/quantity.ts';
import type { KeepingView } from '../screen/contract.ts';
import { cardsMadeAgainText, cardsText, checkedText, copiedText, whatToDoNotIntact } from '../wording/keeping.ts';
import { instantText } from '../wording/time.ts';
import type { StationOptions } from './options.ts';

export interface KeepingOptions {
  /** Minutes after midnight by this computer's own time. */
  readonly dailyAtMinutes: number;
  /** A folder that is there; each copy becomes a folder in it. Without it nothing is copied. */
  readonly copiesIn?: string;
}
interface KeepingParts extends KeepingOptions {
  readonly clock: Clock;
  readonly check: () => Promise<RecordCheck>;
  readonly copy: (to: string, at: Instant) => Promise<string>;
  readonly tell: (line: string) => void;
  /** The search list of these joints is made again. */
  readonly drawAnew: (joints: readonly string[]) => void;
}
export interface Keeping {
  view(): KeepingView;
  close(): void;
}

/** Undefined where the station was not asked to. */
export const keepingOf = (
  { keeping, clock, tell }: StationOptions,
  errands: Pick<Errands, 'run'>,
  drawAnew: KeepingParts['drawAnew'],
): Keeping | undefined =>
  keeping &&
  createKeeping({
    ...keeping,
    clock,
    tell,
    drawAnew,
    check: () => errands.run({ kind: 'check record' }),
    copy: (to, at) => errands.run({ kind: 'copy record', to, at }),
  });

/** The first readings and pages come before it. */
const afterStart = milliseconds(30_000);

export function createKeeping({ clock, check, copy, tell, drawAnew, dailyAtMinutes, copiesIn }: KeepingParts): Keeping {
  let view: KeepingView = {};
  let cancel = clock.after(afterStart, () => {
    rest();
    void checked();
  });
  let closed = false;

  const checked = async (): Promise<void> => {
    const seen = await check().catch((cause: unknown): RecordCheck => ({ entries: 0, fault: wordsOf(cause) }));
    if (closed) return;
    view = { ...view, check: { at: clock.wall(), ...seen } };
    if (seen.cards !== undefined) {
      tell(`${cardsText(seen.cards)} ${cardsMadeAgainText}`);
      drawAnew(seen.cards);
    }
    if (seen.fault === undefined) return;
    tell(checkedText(instantText(clock.wall(), 'UTC'), seen));
    tell(whatToDoNotIntact);
  };

  const copied = async (): Promise<void> => {
    if (copiesIn === undefined) return;
    const now = clock.wall();
    const to = join(copiesIn, `record-${new Date(now).toISOString().slice(0, 16).replace(':', '')}`);
    const done = await copy(to, now).then(
      (folder) => ({ folder }),
      (cause: unknown) => ({ failed: wordsOf(cause) }),
    );
    if (closed) return;
    view = { ...view, copy: { at: clock.wall(), ...done } };
    tell(copiedText(instantText(clock.wall(), 'UTC'), done));
  };

  /** One after the other, and the next day whatever became of them. */
  const rest = (): void => {
    cancel = clock.after(milliseconds(untilNext(clock.wall(), dailyAtMinutes)), () => {
      rest();
      void checked().then(copied);
    });
  };

  return {
    view: () => view,
    close: () => {
      closed = true;
      cancel();
    },
  };
}

/** To the next such time of day of this computer, milliseconds; a day in which clocks change is as long as it is. */
export const untilNext = (now: Instant, dailyAtMinutes: number): number => {
  const next = new Date(now);
  next.setHours(Math.floor(dailyAtMinutes / 60), dailyAtMinutes % 60, 0, 0);
  if (next.getTime() <= now) next.setDate(next.getDate() + 1);
  return next.getTime() - now;
};

const wordsOf = (cause: unknown): string => (cause instanceof Error ? cause.message : String(cause));
