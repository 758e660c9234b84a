/**
 * Readings of a closed joint on their way out of the record into a package that holds them, and back. Looked at first: nothing
 * goes that the package does not hold and the record's own key does not vouch for; nothing comes back that was not sealed.
 */

import { readEnvelope } from '../ledger/envelope.ts';
import { headText } from '../ledger/head-text.ts';
import { isJointChain } from '../ledger/item.ts';
import { fingerprintOf } from '../ledger/keys.ts';
import {
  BlockCount,
  type BlocksTold,
  putBackKind,
  type RemovalBody,
  type RemovalEntry,
  removedKind,
} from '../ledger/removal-entry.ts';
import type { Instant } from '../measure/quantity.ts';
import type { Signed } from '../weld/signed.ts';
import { readingsAwayText } from '../wording/removal.ts';
import type { Database } from './database.ts';
import { RecordRefusal } from './failure.ts';
import type { Packaged } from './packaged.ts';
import type { RecordReader } from './read.ts';
import { newestRemoval } from './removals.ts';
import { allowRemoval } from './schema.ts';
import type { Transactions } from './transactions.ts';

export type Way = 'remove' | 'put back';

/** What would be done, before it is. */
export interface Fitting {
  readonly chain: string;
  readonly way: Way;
  readonly body: Omit<RemovalBody, 'reason'>;
  /** Bytes that lie in the record now: those that go. */
  readonly bytesHere: number;
  /** The newest removal or putting back so far. */
  readonly before?: RemovalEntry;
}
export type Fit = Fitting | { readonly refused: string };

type Reader = Pick<RecordReader, 'head' | 'removals' | 'removed' | 'blocks' | 'keys' | 'hashAt' | 'stored'>;

/** `joint`: the one that is meant, where it was named. */
export const fitOf = (reader: Reader, held: Packaged, way: Way, joint: string = held.chain): Fit => {
  const against = againstPackage(reader, held, joint) ?? againstJoint(reader, joint, way) ?? lacking(reader, held);
  if (against !== undefined) return { refused: against };
  const before = reader.removals(joint).at(-1);
  return {
    chain: joint,
    way,
    body: { ...toldOf(reader, joint), package: held.sha256, head: headText({ chain: joint, ...held.seen.head }) },
    bytesHere: reader.blocks(joint).reduce((sum, { bytes }) => sum + bytes, 0),
    ...(before === undefined ? {} : { before }),
  };
};

const againstPackage = (reader: Reader, { chain, seen }: Packaged, joint: string): string | undefined => {
  if (chain !== joint) return `It is the package of joint ${chain}, and not of ${joint}. Give the package of ${joint}.`;
  const { seq } = reader.head(joint);
  if (!isJointChain(joint) || seq === 0)
    return `This record has no joint ${joint}. Give the record that it belongs to.`;
  const keys = reader.keys();
  if (seen.keys.length === 0 || !seen.sealed)
    return `The package is not signed, so that nothing vouches for it. Make a new one (${howToPack(joint)}) where the key of the station is.`;
  const strange = seen.keys.find(({ key, number }) => keys[number - 1] !== key);
  if (strange !== undefined)
    return `The package is signed by a key that this record does not know (fingerprint ${fingerprintOf(strange.key)}). Give a package that was made of this record.`;
  if (reader.hashAt(joint, seen.head.seq) !== seen.head.hash)
    return `The entries in the package are not those of this record (entry ${seen.head.seq} differs). Give a package that was made of this record, and have the record verified.`;
  return undefined;
};

const againstJoint = (reader: Reader, joint: string, way: Way): string | undefined => {
  const { open, journalled } = reader.head(joint);
  if (open) return `Joint ${joint} is still open. Readings are removed of closed joints only: close it first.`;
  if (journalled > 0) return `Some readings of ${joint} are not sealed yet. Try again in a minute.`;
  const removed = reader.removed(joint);
  if (way === 'remove' && removed !== undefined) return readingsAwayText(joint, removed);
  if (way === 'put back' && removed === undefined)
    return `The readings of ${joint} are in this record: there is nothing to put back.`;
  return undefined;
};

const lacking = (reader: Reader, { chain, seen, has }: Packaged): string | undefined => {
  const blocks = reader.blocks(chain);
  const last = blocks.at(-1)?.seq;
  if (last === undefined) return `Joint ${chain} has no readings in this record: there is nothing to remove.`;
  if (last > seen.head.seq)
    return `The package is older than the newest readings: it ends at entry ${seen.head.seq}, they go on to entry ${last}. Make a new package (${howToPack(chain)}).`;
  if (seen.away !== undefined)
    return `This package was made after the readings were removed and holds none. Take the one with the SHA-256 ${seen.away.package}.`;
  const without = blocks.find(({ seq }) => !has(seq));
  return without === undefined
    ? undefined
    : `The package does not hold the readings of entry ${without.seq}. Make a new package (${howToPack(chain)}).`;
};

const howToPack = (joint: string): string => `"package RECORD ${joint}"`;

/** From the entries that seal them, not from what lies beside them. */
const toldOf = (reader: Pick<Reader, 'stored'>, chain: string): BlocksTold => {
  const count = new BlockCount();
  for (const { bytes } of reader.stored(chain)) count.see(readEnvelope(bytes));
  return count.sofar();
};

export interface Asked {
  readonly by: Signed;
  readonly at: Instant;
  readonly reason?: string;
}

/** The entry first, then the readings, in one transaction: all of it or nothing. Throws RecordRefusal where the joint changed since it was looked at. */
export const removeReadings = (
  database: Database,
  transactions: Transactions,
  { chain, body }: Fitting,
  { by, at, reason }: Asked,
): void => {
  transactions.write((batch) => {
    refuseChanged(database, chain, 'remove');
    allowRemoval(database);
    batch.write(chain, at, removedKind, { ...body, reason }, by);
    database.run("UPDATE blocks SET packed = x'' WHERE chain = ?", chain);
  });
};

export const putBackReadings = (
  database: Database,
  transactions: Transactions,
  { chain, body }: Fitting,
  readings: ReadonlyMap<number, Uint8Array>,
  { by, at, reason }: Asked,
): void => {
  transactions.write((batch) => {
    refuseChanged(database, chain, 'put back');
    allowRemoval(database);
    batch.write(chain, at, putBackKind, { ...body, ...(reason === undefined ? {} : { reason }) }, by);
    for (const [seq, packed] of readings)
      database.run('UPDATE blocks SET packed = ? WHERE chain = ? AND seq = ?', packed, chain, seq);
    const empty = database.get('SELECT 1 FROM blocks WHERE chain = ? AND length(packed) = 0 LIMIT 1', chain);
    if (empty !== undefined) throw new RecordRefusal('not possible', `Not all readings of ${chain} were handed in.`);
  });
};

/** Somebody else may have been quicker. */
const refuseChanged = (database: Database, chain: string, way: Way): void => {
  const state = database.get<{ open: number; journalled: number }>(
    'SELECT open, journalled FROM chains WHERE chain = ?',
    chain,
  );
  const isAway = newestRemoval(database, chain) !== undefined;
  if (state === undefined || state.open === 1 || state.journalled > 0 || isAway === (way === 'remove'))
    throw new RecordRefusal('not possible', `Joint ${chain} changed meanwhile. Look at it again, then do it anew.`);
};

/** All blocks of the joint from the package, as a record keeps them. */
export const readingsFrom = (reader: Pick<RecordReader, 'blocks'>, held: Packaged): ReadonlyMap<number, Uint8Array> =>
  new Map(reader.blocks(held.chain).map(({ seq }) => [seq, held.packedOf(seq)!]));
