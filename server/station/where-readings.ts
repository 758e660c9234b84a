/** Whoever asks for what takes the readings of a joint is told where they are, once they are in a package. */
import type { RecordReader } from '../record/read.ts';
import { readingsAwayText } from '../wording/removal.ts';

/** The door answers with it: the readings were here, and are not any more. */
class Gone extends Error {
  readonly status = 410;
}

/** Done where the readings are in the record, and told as gone where they went while it was done. */
export const withReadings = async <T>(
  record: Pick<RecordReader, 'removed'>,
  id: string,
  work: () => Promise<T>,
): Promise<T> => {
  refuseAway(record, id);
  try {
    return await work();
  } catch (cause) {
    refuseAway(record, id);
    throw cause;
  }
};

const refuseAway = (record: Pick<RecordReader, 'removed'>, id: string): void => {
  const removed = record.removed(id);
  if (removed !== undefined) throw new Gone(readingsAwayText(id, removed));
};
