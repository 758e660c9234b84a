/** Whoever asks for what takes the readings of a joint is told where they are, once they are in a package. */
import type { RecordReader } from '../record/read.ts';
import { readingsAwayText } from '../wording/removal.ts';

/** The door answers with it: the readings were here, and are not any more. */
class Gone extends Error {
  readonly status = 410;
}

/** The joint itself where its readings are in the record; else throws. */
export const withReadings = (record: Pick<RecordReader, 'removed'>, id: string): string => {
  const removed = record.removed(id);
  if (removed !== undefined) throw new Gone(readingsAwayText(id, removed));
  return id;
};
