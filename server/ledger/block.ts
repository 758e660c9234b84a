/**
 * A sealed block: the scans of one chain between two entries, chained like any other entry. The entry
 * holds the SHA-256 of the scans' bytes before compression, so that compressing them anew, by another
 * version or another method, changes nothing that was promised. A block without scans proves that the
 * station was awake.
 */
import { deflateSync, inflateSync } from 'fflate';
import { limits } from '../measure/limits.ts';
import type { Instant } from '../measure/quantity.ts';
import type { Scan } from '../weld/scan.ts';
import { CanonicalFailure } from './canonical.ts';
import { type Course, coursesOf } from './courses-read.ts';
import { documentOf, type Found } from './found.ts';
import { type HashOf, sha256Hex } from './hash.ts';
import { isPackedColumns, packColumns, unpackColumns } from './packed-scans.ts';
import type { Columns } from './scans-columns.ts';
import { scansOf } from './scans-read.ts';
import { type ScanTime, timesOf } from './scans-times.ts';
import { columnsOf, encodeColumns } from './scans-write.ts';

export const blockKind = 'block';

export interface EmptyBody {
  readonly count: 0;
}
export interface FilledBody {
  readonly count: number;
  /** Least and greatest time of measuring; a late scan may come in after a younger one. */
  readonly measuredFrom: Instant;
  readonly measuredTo: Instant;
  readonly arrivedFirst: Instant;
  readonly arrivedLast: Instant;
  /** Length of the scans' canonical bytes, and their SHA-256. */
  readonly bytes: number;
  readonly scans: string;
}
export type BlockBody = EmptyBody | FilledBody;
export interface SealedBlock {
  readonly body: BlockBody;
  /** The scans as packed columns, or where those cannot hold them compressed (RFC 1951). Empty where there are none. */
  readonly packed: Uint8Array;
}

/** Compresses with DEFLATE; any implementation will do, since the hash covers what it was given. */
export type Pack = (bytes: Uint8Array) => Uint8Array;
const pack: Pack = (bytes) => deflateSync(bytes, { level: 6 });

export const sealBlock = (scans: readonly Scan[], packWith: Pack = pack): SealedBlock => {
  if (scans.length === 0) return { body: { count: 0 }, packed: new Uint8Array(0) };
  const columns = columnsOf(scans);
  const bytes = encodeColumns(columns);
  const times = scans.map(({ board, measuredAt, arrivedAt }) => ({ board, measuredAt, arrivedAt }));
  const body = describe(times, bytes.length, sha256Hex(bytes));
  return { body, packed: packedColumns(columns, body) ?? packWith(bytes) };
};

/** Only what gives back the very bytes that are sealed is kept in place of them. */
const packedColumns = (columns: Columns, body: FilledBody): Uint8Array | undefined => {
  const packed = packColumns(columns);
  return packed === undefined || faultOfBlock(body, packed) !== undefined ? undefined : packed;
};

/** The scans of a block whose bytes are believed. Throws CanonicalFailure if they do not fit the body. */
export const openBlock = (body: BlockBody, packed: Uint8Array): readonly Scan[] =>
  isFilled(body) ? scansOf(columnsOfBlock(body, packed), body.count) : [];

/** The same as courses of temperature, for whoever needs nothing else of them. */
export const openCourses = (body: BlockBody, packed: Uint8Array): readonly Course[] =>
  isFilled(body) ? coursesOf(columnsOfBlock(body, packed)) : [];

/** The canonical bytes that were sealed, as they go into a package. Throws CanonicalFailure. */
export const openBytes = (body: BlockBody, packed: Uint8Array): Uint8Array =>
  isFilled(body) ? readBoth(body, packed).bytes : new Uint8Array(0);

export const isFilled = (body: BlockBody): body is FilledBody => body.count !== 0;

/** What is wrong with a block, or when its scans were measured: for whoever does not believe it. */
export const inspectBlock = (
  body: BlockBody,
  packed: Uint8Array,
  hashOf: HashOf = sha256Hex,
): { readonly fault: string } | { readonly times: readonly ScanTime[] } => {
  if (!isFilled(body)) return packed.length === 0 ? { times: [] } : { fault: 'an empty block has scans beside it' };
  try {
    const { bytes, told } = readBoth(body, packed);
    const hash = hashOf(bytes);
    if (hash !== body.scans) return { fault: 'its scans are not those that were sealed' };
    const times = timesOf(told, body.count);
    if (sameBody(describe(times, bytes.length, hash), body)) return { times };
    return { fault: 'its scans do not fit what the block says of them' };
  } catch (error) {
    return { fault: `its scans cannot be read (${error instanceof Error ? error.message : String(error)})` };
  }
};

export const faultOfBlock = (body: BlockBody, packed: Uint8Array): string | undefined => {
  const seen = inspectBlock(body, packed);
  return 'fault' in seen ? seen.fault : undefined;
};

const describe = (times: readonly ScanTime[], bytes: number, scans: string): FilledBody => {
  let measuredFrom = times[0]!.measuredAt;
  let measuredTo = measuredFrom;
  for (const { measuredAt } of times) {
    if (measuredAt < measuredFrom) measuredFrom = measuredAt;
    if (measuredAt > measuredTo) measuredTo = measuredAt;
  }
  const [arrivedFirst, arrivedLast] = [times[0]!.arrivedAt, times.at(-1)!.arrivedAt];
  return { count: times.length, measuredFrom, measuredTo, arrivedFirst, arrivedLast, bytes, scans };
};

const sameBody = (a: object, b: object): boolean =>
  Object.entries(a).every(([key, value]) => (b as Readonly<Record<string, unknown>>)[key] === value);

const columnsOfBlock = (body: FilledBody, packed: Uint8Array): Found =>
  isPackedColumns(packed) ? columnsIn(body, packed) : documentOf(inflated(body, packed), body.count);

const readBoth = (body: FilledBody, packed: Uint8Array): { readonly bytes: Uint8Array; readonly told: Found } => {
  if (isPackedColumns(packed)) {
    const columns = columnsIn(body, packed);
    return { bytes: encodeColumns(columns), told: columns };
  }
  const bytes = inflated(body, packed);
  return { bytes, told: documentOf(bytes, body.count) };
};

const columnsIn = ({ count }: FilledBody, packed: Uint8Array): Columns & Found => {
  if (!Number.isSafeInteger(count) || count < 0 || count > limits.scansPerBlockMaximum)
    throw new CanonicalFailure('count', 'not a number of scans that a block can have');
  return unpackColumns(packed, count) as Columns & Found;
};

const inflated = (body: FilledBody, packed: Uint8Array): Uint8Array => {
  if (!Number.isSafeInteger(body.bytes) || body.bytes < 0 || body.bytes > limits.blockBytesMaximum) {
    throw new CanonicalFailure('bytes', 'not a length that a block can have');
  }
  let bytes: Uint8Array;
  try {
    // One byte more than is due shows a surplus, and no block can take more memory than it admits to.
    bytes = inflateSync(packed, { out: new Uint8Array(body.bytes + 1) });
  } catch {
    throw new CanonicalFailure('scans', 'the compressed bytes are damaged');
  }
  if (bytes.length !== body.bytes) throw new CanonicalFailure('scans', `not ${body.bytes} bytes once unpacked`);
  return bytes;
};
