/** Errands that look at the record as a whole, or copy it: by its folder, since they believe nothing that is open already. */
import { isRemoved } from '../ledger/removal-entry.ts';
import { instant } from '../measure/quantity.ts';
import type { Program } from '../program.ts';
import { inspectRecord } from '../record/inspection.ts';
import { keepCopy } from '../record/keep-copy.ts';
import { openRecordReadOnly } from '../record/read.ts';
import { badEntryText } from '../wording/keeping.ts';
import { instantText } from '../wording/time.ts';
import { type CardsCheck, checkCards } from './past-cards.ts';

export type KeepingErrand =
  | { readonly kind: 'check record' }
  | { readonly kind: 'copy record'; readonly to: string; readonly at: number };

export interface RecordCheck {
  /** Entries of all chains that stand. */
  readonly entries: number;
  /** What was found first that is not as it was written; absent: intact. */
  readonly fault?: string;
  /** Joints whose readings are in packages; absent: none. */
  readonly away?: number;
  /** Joints of which the search list says something else than their chain; absent: none. */
  readonly cards?: readonly string[];
}
export type KeepingOutcome<E extends KeepingErrand> = E extends { kind: 'check record' } ? RecordCheck : string;

export const isKeeping = (errand: { readonly kind: string }): errand is KeepingErrand =>
  errand.kind === 'check record' || errand.kind === 'copy record';

/** A copy answers with the folder that it became. */
export const keep = (errand: KeepingErrand, folder: string, program: Pick<Program, 'rules'>): RecordCheck | string => {
  if (errand.kind === 'copy record')
    return keepCopy({ from: folder, to: errand.to, at: instantText(instant(errand.at), 'UTC') }).folder;
  const { ok, chains, damaged, firstBad } = inspectRecord(folder);
  const entries = chains.reduce((sum, chain) => sum + chain.entries, 0);
  if (!ok) return { entries, fault: badEntryText(firstBad, damaged) };
  const { differing } = cardsOf(folder, program);
  const away = chains.filter(({ removals }) => isRemoved(removals.at(-1))).length;
  return {
    entries,
    ...(away === 0 ? {} : { away }),
    ...(differing.length === 0 ? {} : { cards: differing }),
  };
};

/** Kept cards of a record, held against its chains. */
export const cardsOf = (folder: string, program: Pick<Program, 'rules'>): CardsCheck => {
  const reader = openRecordReadOnly(folder);
  try {
    return checkCards(reader, program);
  } finally {
    reader.close();
  }
};
