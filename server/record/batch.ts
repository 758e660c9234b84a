/**
 * What one transaction does to the record. Scans go to the journal; an entry first seals the scans of
 * its chain that came before it, so that the order in the chain is the order of arrival. Everything here
 * runs inside a transaction that the store has begun.
 */
import { deflateRawSync } from 'node:zlib';
import { blockKind, isFilled, type SealedBlock, sealBlock } from '../ledger/block.ts';
import { linkEntry, readEnvelope } from '../ledger/envelope.ts';
import { headBytes } from '../ledger/head-text.ts';
import {
  type CommittedEntry,
  type CommittedItem,
  type CommittedScan,
  type EntryClass,
  type EntryItem,
  type Item,
  isClosing,
  type ScanItem,
  stationChain,
  stationName,
} from '../ledger/item.ts';
import { settle } from '../ledger/plain-decimal.ts';
import { assertChain, assertOpening, scanBytes } from '../ledger/recordable.ts';
import { decodeScans } from '../ledger/scans-read.ts';
import { limits } from '../measure/limits.ts';
import type { Instant } from '../measure/quantity.ts';
import { type Signed, signedOf } from '../weld/signed.ts';
import { type ChainState, ChainStates } from './chain-states.ts';
import type { Database } from './database.ts';
import type { ChainHead } from './head.ts';
import { packEntry, unpackEntry } from './packed-entry.ts';
import { encodePositions } from './positions.ts';
import { meta, setMeta } from './schema.ts';
import type { Pen } from './signer.ts';

/** Scans in the journals, by chain. */
export type Waiting = Map<string, CommittedScan[]>;

export class Batch {
  /** Position of the newest item of the record. */
  position: number;
  private readonly database: Database;
  private readonly waiting: Waiting;
  /** What was added, in order. */
  readonly items: CommittedItem[] = [];
  private readonly states: ChainStates;
  private readonly pen: Pen | undefined;

  /** `waiting` is a memory of the journals that lasts from one batch to the next; empty where it may be wrong. */
  constructor(database: Database, waiting: Waiting, pen?: Pen) {
    this.database = database;
    this.waiting = waiting;
    this.pen = pen;
    this.states = new ChainStates(database);
    this.position = Number(meta(database, 'position') ?? 0);
  }

  add(item: Item): CommittedItem {
    const committed = item.type === 'scan' ? this.addScan(item) : this.addEntry(item);
    this.items.push(committed);
    return committed;
  }

  /** Seals the scans that the chain has in the journal. Does nothing where there are none. */
  seal(chain: string, at?: Instant): boolean {
    const state = this.states.of(chain);
    if (state.journalled === 0) return false;
    const waiting = this.waitingOf(state);
    const scans = waiting.map((item) => item.scan);
    const sealed = sealBlock(scans, deflateRawSync);
    const positions = waiting.map((item) => item.position);
    this.putBlock(state, at ?? scans.at(-1)!.arrivedAt, sealed, positions);
    this.database.run('DELETE FROM journal WHERE chain = ?', chain);
    this.waiting.delete(chain);
    state.journalled = 0;
    state.journalled_bytes = 0;
    return true;
  }

  /** Scans that were sealed before they came here, as those of a log that is kept. */
  addBlock(chain: string, at: Instant, sealed: SealedBlock): void {
    this.seal(chain);
    const state = this.states.of(chain);
    const positions = Array.from({ length: sealed.body.count }, () => ++this.position);
    state.position = this.position;
    this.putBlock(state, at, sealed, positions);
  }

  private putBlock(state: ChainState, at: Instant, { body, packed }: SealedBlock, positions: readonly number[]): void {
    this.link(state, { at, who: stationName, class: 'block', kind: blockKind, body });
    if (!isFilled(body)) throw new Error('a block of scans cannot be empty');
    this.database.run(
      'INSERT INTO blocks (chain, seq, measured_from, measured_to, positions, packed) VALUES (?, ?, ?, ?, ?, ?)',
      state.chain,
      state.seq,
      body.measuredFrom,
      body.measuredTo,
      encodePositions(positions),
      packed,
    );
  }

  /** An entry that the record writes itself, or for a person who asked for it; it has no position of its own. */
  write(chain: string, at: Instant, kind: string, body: unknown, by: Signed = { who: stationName }): void {
    this.seal(chain);
    this.link(this.states.of(chain), { at, ...by, class: 'block', kind, body });
  }

  /** Notes the heads of the joints' chains in the station's chain, where they have moved. */
  noteHeads(at: Instant): boolean {
    this.states.flush();
    const moved = this.database.all<{ chain: string; seq: number; hash: string }>(
      'SELECT chain, seq, hash FROM chains WHERE seq > noted AND chain <> ? ORDER BY chain LIMIT ?',
      stationChain,
      limits.headsPerEntryMaximum,
    );
    if (moved.length === 0) return false;
    this.write(stationChain, at, 'heads', { heads: moved.map(({ chain, seq, hash }) => ({ chain, seq, hash })) });
    for (const { chain, seq } of moved) this.states.of(chain).noted = seq;
    return true;
  }

  /** Heads of the chains that were written to. */
  heads(): readonly ChainHead[] {
    return this.states.heads();
  }

  /** Writes what was kept in memory meanwhile. The stamp grows by one with every transaction. */
  finish(stamp: number): void {
    this.states.flush();
    setMeta(this.database, 'position', this.position);
    setMeta(this.database, 'stamp', stamp);
  }

  private addScan(item: ScanItem): CommittedItem {
    assertChain(item.chain);
    const bytes = scanBytes(item.scan);
    const scan = decodeScans(bytes, 1)[0]!;
    const state = this.states.of(item.chain);
    this.position += 1;
    this.database.run(
      'INSERT INTO journal (position, chain, measured_at, arrived_at, scan) VALUES (?, ?, ?, ?, ?)',
      this.position,
      item.chain,
      scan.measuredAt,
      scan.arrivedAt,
      bytes,
    );
    state.position = this.position;
    state.journalled += 1;
    state.journalled_bytes += bytes.length;
    const committed = { type: 'scan', position: state.position, chain: item.chain, scan } as const;
    const waiting = this.waiting.get(item.chain);
    if (waiting !== undefined) waiting.push(committed);
    else this.waiting.set(item.chain, [committed]);
    if (state.journalled >= limits.scansPerBlockMaximum || state.journalled_bytes >= limits.journalBytesMaximum) {
      this.seal(item.chain);
    }
    return committed;
  }

  /** What the chain has in the journal: from memory where that is the same, else from the disk. */
  private waitingOf(state: ChainState): readonly CommittedScan[] {
    const known = this.waiting.get(state.chain) ?? [];
    if (known.length === state.journalled && known.at(-1)?.position === state.position) return known;
    return this.database
      .all<{ position: number; scan: Uint8Array }>(
        'SELECT position, scan FROM journal WHERE chain = ? ORDER BY position',
        state.chain,
      )
      .map(({ position, scan }) => ({ type: 'scan', position, chain: state.chain, scan: decodeScans(scan, 1)[0]! }));
  }

  private addEntry(item: EntryItem): CommittedEntry {
    assertOpening(item);
    this.seal(item.chain);
    const state = this.states.of(item.chain);
    this.position += 1;
    state.position = this.position;
    const body = item.class === 'conclusion' ? settle(item.body) : item.body;
    const bytes = this.link(state, { ...item, body });
    if (item.class === 'input' && item.kind === 'opened') state.open = 1;
    if (isClosing(item)) state.open = 0;
    return committedEntry(state.position, state.hash, bytes);
  }

  private link(
    state: ChainState,
    entry: Signed & { at: Instant; class: EntryClass; kind: string; body: unknown },
  ): Uint8Array {
    const { at, kind, body } = entry;
    const seq = state.seq + 1;
    const linked = linkEntry(state.hash, {
      chain: state.chain,
      seq,
      at,
      ...signedOf(entry),
      class: entry.class,
      kind,
      body,
    });
    this.database.run(
      'INSERT INTO entries (chain, seq, position, class, kind, hash, bytes) VALUES (?, ?, ?, ?, ?, ?, ?)',
      state.chain,
      seq,
      state.position,
      entry.class,
      kind,
      linked.hash,
      // The first entry of a joint is looked through as text: openingsSince.
      kind === 'opened' ? linked.bytes : packEntry(linked.bytes),
    );
    if (this.pen !== undefined) {
      this.database.run(
        'INSERT INTO signatures (chain, seq, key, signature) VALUES (?, ?, ?, ?)',
        state.chain,
        seq,
        this.pen.key,
        this.pen.sign(headBytes({ chain: state.chain, seq, hash: linked.hash })),
      );
    }
    state.seq = seq;
    state.hash = linked.hash;
    state.at = at;
    return linked.bytes;
  }
}

/** The entry as it stands in the bytes, packed or not: what a reader will find, not what was handed in. */
export const committedEntry = (position: number, hash: string, stored: Uint8Array): CommittedEntry => {
  const envelope = readEnvelope(unpackEntry(stored));
  const { chain, seq, at, class: entryClass, kind, body } = envelope;
  return {
    type: 'entry',
    position,
    chain,
    seq,
    hash,
    at,
    ...signedOf(envelope),
    class: entryClass as EntryItem['class'],
    kind,
    body,
  };
};
