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
import { type Course, decodeCourses } from './courses-read.ts';
import { sha256Hex } from './hash.ts';
import { decodeScans } from './scans-read.ts';
import { encodeScans } from './scans-write.ts';

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
  /** The scans, compressed (RFC 1951). Empty where there are none. */
  readonly packed: Uint8Array;
}

/** Compresses with DEFLATE; any implementation will do, since the hash covers what it was given. */
export type Pack = (bytes: Uint8Array) => Uint8Array;
const pack: Pack = (bytes) => deflateSync(bytes, { level: 6 });

export const sealBlock = (scans: readonly Scan[], packWith: Pack = pack): SealedBlock => {
  const first = scans[0];
  if (first === undefined) return { body: { count: 0 }, packed: new Uint8Array(0) };
  const bytes = encodeScans(scans);
  return { body: describe(scans, bytes), packed: packWith(bytes) };
};

/** The scans of a block whose bytes are believed. Throws CanonicalFailure if they do not fit the body. */
export const openBlock = (body: BlockBody, packed: Uint8Array): readonly Scan[] =>
  isFilled(body) ? decodeScans(unpack(body, packed), body.count) : [];

/** The same as courses of temperature, for whoever needs nothing else of them. */
export const openCourses = (body: BlockBody, packed: Uint8Array): readonly Course[] =>
  isFilled(body) ? decodeCourses(unpack(body, packed), body.count) : [];

export const isFilled = (body: BlockBody): body is FilledBody => body.count !== 0;

/** What is wrong with a block, or undefined: for whoever does not believe it. */
export const faultOfBlock = (body: BlockBody, packed: Uint8Array): string | undefined => {
  if (!isFilled(body)) return packed.length === 0 ? undefined : 'an empty block has scans beside it';
  let scans: readonly Scan[];
  let bytes: Uint8Array;
  try {
    bytes = unpack(body, packed);
    if (sha256Hex(bytes) !== body.scans) return 'its scans are not those that were sealed';
    scans = decodeScans(bytes, body.count);
  } catch (error) {
    return `its scans cannot be read (${error instanceof Error ? error.message : String(error)})`;
  }
  const told = describe(scans, bytes);
  return sameBody(told, body) ? undefined : 'its scans do not fit what the block says of them';
};

const describe = (scans: readonly Scan[], bytes: Uint8Array): FilledBody => {
  let measuredFrom = scans[0]!.measuredAt;
  let measuredTo = measuredFrom;
  for (const { measuredAt } of scans) {
    if (measuredAt < measuredFrom) measuredFrom = measuredAt;
    if (measuredAt > measuredTo) measuredTo = measuredAt;
  }
  return {
    count: scans.length,
    measuredFrom,
    measuredTo,
    arrivedFirst: scans[0]!.arrivedAt,
    arrivedLast: scans.at(-1)!.arrivedAt,
    bytes: bytes.length,
    scans: sha256Hex(bytes),
  };
};

const sameBody = (a: object, b: object): boolean =>
  Object.entries(a).every(([key, value]) => (b as Readonly<Record<string, unknown>>)[key] === value);

const unpack = (body: FilledBody, packed: Uint8Array): Uint8Array => {
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
