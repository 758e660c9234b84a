/** The errands of searching and counting. */

import { limits } from '../measure/limits.ts';
import type { PeriodKind } from '../past/period.ts';
import { type Asked, search } from '../past/search.ts';
import { type Statistics, statisticsOf } from '../past/statistics.ts';
import { type FoundView, foundView } from '../past/view.ts';
import type { Program } from '../program.ts';
import type { KeptCard } from '../record/cards.ts';
import type { RecordReader } from '../record/read.ts';
import { foundCsv, statisticsCsv } from '../report/past-csv.ts';
import { madeBy, pastCards } from './past-cards.ts';

export type PastErrand =
  | { readonly kind: 'find'; readonly asked: Asked; readonly from: number; readonly count: number }
  | { readonly kind: 'found as CSV'; readonly asked: Asked; readonly zone: string }
  | { readonly kind: 'statistics'; readonly asked: Asked; readonly period: PeriodKind; readonly zone: string }
  | { readonly kind: 'statistics as CSV'; readonly asked: Asked; readonly period: PeriodKind; readonly zone: string }
  /** Cards that the record does not hold yet, a few at a time; none once all are kept. What it holds of `anew` is not believed. */
  | { readonly kind: 'cards to keep'; readonly anew?: readonly string[] };

export interface CardsToKeep {
  readonly made: string;
  readonly cards: readonly KeptCard[];
}

export type PastOutcome<E> = E extends { kind: 'find' }
  ? FoundView
  : E extends { kind: 'statistics' }
    ? Statistics
    : E extends { kind: 'cards to keep' }
      ? CardsToKeep
      : Uint8Array;

export function runPast(
  errand: PastErrand,
  reader: RecordReader,
  program: Pick<Program, 'rules'>,
): FoundView | Statistics | CardsToKeep | Uint8Array {
  const cards = pastCards(reader, program);
  if (errand.kind === 'cards to keep') {
    cards.drawAnew(errand.anew ?? []);
    return { made: madeBy(program), cards: cards.toKeep(limits.cardsPerCommitMaximum) };
  }
  const found = search(cards.all(), errand.asked);
  switch (errand.kind) {
    case 'find':
      return foundView(found, errand.asked, errand.from, errand.count, (joint) => reader.removed(joint) !== undefined);
    case 'found as CSV':
      return bytes(foundCsv(found.cards, errand.zone));
    case 'statistics':
      return statisticsOf(found.cards, errand.period, errand.zone);
    case 'statistics as CSV':
      return bytes(statisticsCsv(statisticsOf(found.cards, errand.period, errand.zone)));
  }
}

const bytes = (text: string): Uint8Array => new TextEncoder().encode(text);
