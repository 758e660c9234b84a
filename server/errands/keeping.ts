/** Errands that look at the record as a whole, or copy it: by its folder, since they believe nothing that is open already. */
import { instant } from '../measure/quantity.ts';
import { inspectRecord } from '../record/inspection.ts';
import { keepCopy } from '../record/keep-copy.ts';
import { badEntryText } from '../wording/keeping.ts';
import { instantText } from '../wording/time.ts';

export type KeepingErrand =
  | { readonly kind: 'check record' }
  | { readonly kind: 'copy record'; readonly to: string; readonly at: number };

export interface RecordCheck {
  /** Entries of all chains that stand. */
  readonly entries: number;
  /** What was found first that is not as it was written; absent: intact. */
  readonly fault?: string;
}
export type KeepingOutcome<E extends KeepingErrand> = E extends { kind: 'check record' } ? RecordCheck : string;

export const isKeeping = (errand: { readonly kind: string }): errand is KeepingErrand =>
  errand.kind === 'check record' || errand.kind === 'copy record';

/** A copy answers with the folder that it became. */
export const keep = (errand: KeepingErrand, folder: string): RecordCheck | string => {
  if (errand.kind === 'copy record')
    return keepCopy({ from: folder, to: errand.to, at: instantText(instant(errand.at), 'UTC') }).folder;
  const { ok, chains, damaged, firstBad } = inspectRecord(folder);
  const entries = chains.reduce((sum, chain) => sum + chain.entries, 0);
  return ok ? { entries } : { entries, fault: badEntryText(firstBad, damaged) };
};
