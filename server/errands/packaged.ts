/** A package that somebody hands in for the readings of a joint: looked at as a whole beside the trip, since that takes longer than a reading may wait. */
import { openPackage } from '../record/packaged.ts';
import type { RecordReader } from '../record/read.ts';
import { type Fitting, fitOf, readingsFrom } from '../record/retaining.ts';

export interface PackageErrand {
  readonly kind: 'look at package';
  readonly joint: string;
  readonly bytes: Uint8Array;
}
export type PackageLooked =
  | {
      readonly fitting: Fitting;
      /** Of each block, where they are to come back. */
      readonly readings?: ReadonlyMap<number, Uint8Array>;
    }
  | { readonly refused: string };

/** Which way follows from where the readings are now. */
export const lookAtPackage = (reader: RecordReader, { joint, bytes }: PackageErrand): PackageLooked => {
  const held = openPackage(bytes);
  if ('refused' in held)
    return { refused: `${held.refused} Take another copy of it, or make a new one with "Package to verify".` };
  const way = reader.removed(joint) === undefined ? 'remove' : 'put back';
  const fitting = fitOf(reader, held, way, joint);
  if ('refused' in fitting) return fitting;
  return { fitting, ...(way === 'remove' ? {} : { readings: readingsFrom(reader, held) }) };
};
