/** A card of a joint that is plain in every respect, with what the test wants otherwise. */
import { type Instant, instant } from '../../../server/measure/quantity.ts';
import type { Card } from '../../../server/past/card.ts';
import type { CardWords } from '../../../server/past/card-words.ts';

const begins = instant(Date.UTC(2026, 2, 2));

export function cardWith({ words, ...changes }: Partial<Omit<Card, 'words'>> & { words?: Partial<CardWords> }): Card {
  const openedAt = changes.openedAt ?? begins;
  const { chain = 'joint', title = 'Joint', people = [], repairOf } = changes;
  return {
    ...{ chain, title, openedAt, people },
    open: changes.closedAt === undefined,
    lastAt: (changes.closedAt ?? openedAt) as Instant,
    source: { kind: 'measured', detail: '' },
    verdict: 'complies',
    ...{ grades: [], heats: [], passes: [], probes: [], findings: [] },
    ...{ hasInterpassMaximum: false, holdsLost: 0, breaks: 0 },
    ...(repairOf === undefined ? {} : { repairOf }),
    ...changes,
    words: {
      joint: [chain, title],
      person: people.map(({ name }) => name),
      ...{ part: [], heat: [], procedure: [], other: [] },
      ...words,
    },
  };
}
