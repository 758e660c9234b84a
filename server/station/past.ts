/** Searching and counting at a station: by errand, and what was drawn out of closed joints is kept in the record, a few at a time. */
import type { Errand, Outcome } from '../errands/errand.ts';
import { isClosing } from '../ledger/item.ts';
import { RecordFailure } from '../record/failure.ts';
import type { RecordStore } from '../record/store.ts';
import type { PastSource } from '../screen/past-router.ts';
import { withReadings } from './where-readings.ts';

type Run = <E extends Errand>(errand: E) => Promise<Outcome<E>>;

export const pastViews = (
  run: Run,
  record: Pick<RecordStore, 'removed'>,
  isKnown: (joint: string) => boolean,
): PastSource => ({
  find: (asked, from, count) => run({ kind: 'find', asked, from, count }),
  csv: (asked, zone) => run({ kind: 'found as CSV', asked, zone }),
  statistics: (asked, period, zone) => run({ kind: 'statistics', asked, period, zone }),
  statisticsCsv: (asked, period, zone) => run({ kind: 'statistics as CSV', asked, period, zone }),
  suppose: (joint, question) =>
    isKnown(joint) ? withReadings(record, joint, () => run({ kind: 'suppose', joint, question })) : undefined,
});

export interface PastKeeping {
  /** What the record holds of these joints is not believed any more, and written anew. */
  drawAnew(joints: readonly string[]): void;
  end(): void;
}

/** At the start, and whenever a joint was closed. What could not be kept is drawn again when it is asked for. */
export function keepPastCards(record: RecordStore, run: Run): PastKeeping {
  let anew: readonly string[] = [];
  let isEnded = false;
  let isAsked = false;
  let isWorking = false;

  const keepAll = async (): Promise<void> => {
    while (isAsked && !isEnded) {
      const asked = anew;
      anew = [];
      const { made, cards } = await run({ kind: 'cards to keep', anew: asked });
      if (isEnded) return;
      if (cards.length === 0) isAsked = false;
      else record.keepCards(made, cards);
    }
  };
  const ask = (): void => {
    isAsked = true;
    if (isWorking) return;
    isWorking = true;
    void keepAll()
      .catch((cause: unknown) => {
        isAsked = false;
        // A disk that fails is told by the trip; a thread that ended is started by the next errand.
        if (!isEnded && !(cause instanceof RecordFailure))
          process.emitWarning(cause instanceof Error ? cause : String(cause));
      })
      .finally(() => {
        isWorking = false;
      });
  };
  const forget = record.onCommit((items) => {
    if (items.some((item) => item.type === 'entry' && isClosing(item))) ask();
  });
  ask();
  return {
    drawAnew: (joints) => {
      anew = [...anew, ...joints];
      ask();
    },
    end: () => {
      isEnded = true;
      forget();
    },
  };
}
