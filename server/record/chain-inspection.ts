/**
 * One chain of a record, looked at by someone who believes nothing of it: is it as it was written, signed by the station's
 * key, and does what is kept beside the hashed bytes fit them?
 */
import { type BlockBody, blockKind, isFilled } from '../ledger/block.ts';
import type { Envelope } from '../ledger/envelope.ts';
import { type ChainSight, Sight } from '../ledger/sight.ts';
import type { SignatureWatch } from '../ledger/signatures.ts';
import { type FirstBad, type Head, type StoredRow, verifyChain } from '../ledger/verify.ts';
import type { Database } from './database.ts';
import { sha256 } from './ed25519.ts';
import { decodePositions } from './positions.ts';
import { newestRemoval } from './removals.ts';
import { type KeptRow, storedRows } from './stored.ts';
import type { EntryRow, ReadingsHeld } from './walk.ts';

export interface ChainInspection extends ChainSight {
  readonly chain: string;
  readonly ok: boolean;
  /** Entries that stand, up to the first bad one. */
  readonly entries: number;
  readonly head: Head;
  readonly firstBad?: FirstBad;
  /** The first entry that carries a signature; undefined where none does. */
  readonly signedFrom?: number;
}

export const inspectChain = (
  database: Database,
  chain: string,
  lastSeq: number,
  expectedHeads: readonly Head[],
  signatures: SignatureWatch,
  readings?: ReadingsHeld,
): ChainInspection => {
  const sight = new Sight();
  const removedBy = newestRemoval(database, chain);
  let lastPosition = 0;
  const check = verifyChain(chain, storedRows(database, chain, lastSeq, readings), {
    expectedHeads,
    signatures,
    hashOf: sha256,
    ...(removedBy === undefined ? {} : { removedBy }),
    visit: (envelope, row, times) => {
      const { stored, kept } = row as StoredRow & KeptRow;
      const fault =
        filedWrongly(envelope, stored, lastPosition) ?? stillThere(kept, removedBy) ?? sight.see(envelope, times);
      lastPosition = stored.position;
      return fault;
    },
  });
  const from = signatures.from();
  return { ...sight.seen(), ...check, ...(from === undefined ? {} : { signedFrom: from }) };
};

/** Nothing that this program writes leaves readings behind that an entry says were removed. */
const stillThere = ({ seq, packed }: EntryRow, removedBy = 0): string | undefined =>
  seq < removedBy && packed !== null && packed.length > 0
    ? `its readings are here, and entry ${removedBy} says that they were removed`
    : undefined;

/** What is kept beside the hashed bytes, for search and for the order over all chains, and does not fit them. */
const filedWrongly = (envelope: Envelope, stored: EntryRow, lastPosition: number): string | undefined => {
  if (stored.class !== envelope.class || stored.kind !== envelope.kind)
    return 'it is filed under another class or kind';
  if (stored.position < lastPosition) return 'its position in the record is not after the one before it';
  if (envelope.class !== 'block' || envelope.kind !== blockKind || stored.packed === null) return undefined;
  const body = envelope.body as BlockBody;
  if (!isFilled(body)) return undefined;
  if (stored.measured_from !== body.measuredFrom || stored.measured_to !== body.measuredTo)
    return 'it is filed under another time';
  try {
    const positions = decodePositions(stored.positions ?? new Uint8Array(0), body.count);
    if (positions[0]! <= lastPosition || positions.at(-1) !== stored.position)
      return 'the positions of its scans do not fit';
  } catch {
    return 'the positions of its scans cannot be read';
  }
  return undefined;
};
