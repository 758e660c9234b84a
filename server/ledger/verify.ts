/**
 * Walks one chain as it is stored and names the first entry that is not as it was written: changed,
 * missing, moved, or put in. Cutting the end off leaves a chain that is intact in itself; it shows only
 * against a head known from elsewhere (the station's chain, a printed report), given as expectedHead.
 */
import { type BlockBody, blockKind, inspectBlock, isFilled } from './block.ts';
import { type Envelope, readEnvelopeStrictly } from './envelope.ts';
import { type HashOf, noHash, sha256Hex } from './hash.ts';
import { isRemovalKind, removedKind } from './removal-entry.ts';
import type { ScanTime } from './scans-times.ts';
import type { SignatureWatch, StoredSignature } from './signatures.ts';

export interface StoredRow {
  readonly seq: number;
  readonly bytes: Uint8Array;
  readonly hash: string;
  /** Compressed scans, for a block. */
  readonly packed?: Uint8Array;
  readonly signature?: StoredSignature;
}
export interface Head {
  /** 0 and no hash for a chain without entries. */
  readonly seq: number;
  readonly hash: string;
}
export type BadWhy =
  | 'altered'
  | 'missing'
  | 'moved'
  | 'put in'
  | 'scans altered'
  | 'cut off'
  | 'not the known head'
  | 'not signed';
export interface FirstBad {
  readonly seq: number;
  readonly why: BadWhy;
  readonly detail: string;
}
export interface ChainCheck {
  readonly chain: string;
  readonly ok: boolean;
  /** Entries that stand, counted up to the first bad one. */
  readonly entries: number;
  readonly head: Head;
  readonly firstBad?: FirstBad;
}
export interface VerifyOptions {
  /** Heads known from elsewhere: each must stand in the chain. */
  readonly expectedHeads?: readonly Head[];
  /** Looks at the signature of every entry that stands. */
  readonly signatures?: SignatureWatch;
  /** Told of every entry that stands, in order, with the times of its scans; may answer with a fault that it sees in it. */
  readonly visit?: (envelope: Envelope, row: StoredRow, times: readonly ScanTime[]) => string | undefined;
  readonly hashOf?: HashOf;
  /**
   * Number of the entry that is said to have removed the readings before it, believed in nothing: where a block has none, that
   * entry must stand, and no later one have put them back.
   */
  readonly removedBy?: number;
}

export const verifyChain = (chain: string, rows: Iterable<StoredRow>, options: VerifyOptions = {}): ChainCheck => {
  const expected = new Map<number, string[]>();
  for (const { seq, hash } of options.expectedHeads ?? []) {
    if (seq > 0) expected.set(seq, [...(expected.get(seq) ?? []), hash]);
  }
  const { hashOf = sha256Hex } = options;
  const away = new Away(options.removedBy);
  let head: Head = { seq: 0, hash: noHash };
  let before = head;
  const bad = (firstBad: FirstBad): ChainCheck => ({ chain, ok: false, entries: head.seq, head, firstBad });
  for (const row of rows) {
    const checked = check(chain, before, head, row, hashOf, away);
    if ('why' in checked) return bad(checked);
    const { envelope, times } = checked;
    const known = expected.get(row.seq)?.find((hash) => hash !== row.hash);
    if (known !== undefined) {
      return bad({ seq: row.seq, why: 'not the known head', detail: `hash ${row.hash}, known as ${known}` });
    }
    const unsigned = unsignedBecause(envelope, row, options.signatures);
    if (unsigned !== undefined) return bad({ seq: row.seq, why: 'not signed', detail: unsigned });
    before = head;
    head = { seq: row.seq, hash: row.hash };
    away.see(envelope);
    const fault = options.visit?.(envelope, row, times);
    if (fault !== undefined) return bad({ seq: row.seq, why: 'altered', detail: fault });
  }
  const lost = away.notVouchedFor();
  if (lost !== undefined) return bad({ seq: lost, why: 'scans altered', detail: scansMissing });
  const beyond = [...expected.keys()].filter((seq) => seq > head.seq).sort((a, b) => b - a)[0];
  if (beyond !== undefined) {
    return bad({ seq: head.seq + 1, why: 'cut off', detail: `the chain is known to have reached entry ${beyond}` });
  }
  return { chain, ok: true, entries: head.seq, head };
};

const unsignedBecause = (envelope: Envelope, row: StoredRow, watch: SignatureWatch | undefined): string | undefined => {
  try {
    return watch?.see(envelope, row.hash, row.signature);
  } catch (error) {
    return error instanceof Error ? error.message : String(error);
  }
};

interface Checked {
  readonly envelope: Envelope;
  readonly times: readonly ScanTime[];
}

const check = (
  chain: string,
  before: Head,
  head: Head,
  row: StoredRow,
  hashOf: HashOf,
  away: Away,
): Checked | FirstBad => {
  const seq = head.seq + 1;
  if (row.seq > seq) return { seq, why: 'missing', detail: `entry ${row.seq} follows entry ${head.seq}` };
  if (row.seq < seq) return { seq: row.seq, why: 'put in', detail: 'the place in the chain is taken twice' };
  if (hashOf(row.bytes) !== row.hash)
    return { seq, why: 'altered', detail: 'the bytes do not have the hash noted with them' };
  let envelope: Envelope;
  try {
    envelope = readEnvelopeStrictly(row.bytes);
  } catch (error) {
    return { seq, why: 'altered', detail: error instanceof Error ? error.message : String(error) };
  }
  if (envelope.chain === chain && envelope.seq === head.seq && envelope.previous === before.hash) {
    return { seq: head.seq, why: 'put in', detail: 'two entries claim this place; one of them was put in later' };
  }
  if (envelope.chain !== chain || envelope.seq !== seq) {
    return { seq, why: 'moved', detail: `it was written as entry ${envelope.seq} of ${envelope.chain}` };
  }
  if (envelope.previous !== head.hash) return { seq, why: 'put in', detail: `it does not follow entry ${head.seq}` };
  const scans = inspectScans(envelope, row, hashOf, away);
  return 'fault' in scans ? { seq, why: 'scans altered', detail: scans.fault } : { envelope, times: scans.times };
};

const scansMissing = 'its scans are missing';

const inspectScans = (
  envelope: Envelope,
  row: StoredRow,
  hashOf: HashOf,
  away: Away,
): ReturnType<typeof inspectBlock> => {
  if (envelope.class !== 'block' || envelope.kind !== blockKind) {
    return row.packed === undefined ? { times: [] } : { fault: 'scans stand beside an entry that seals none' };
  }
  const body = envelope.body as BlockBody;
  if (row.packed === undefined && isFilled(body))
    return away.mayMiss(row.seq) ? { times: [] } : { fault: scansMissing };
  return inspectBlock(body, row.packed ?? new Uint8Array(0), hashOf);
};

/** Blocks without their scans, and whether the entry that is said to have removed them stands and is the newest of its kind. */
class Away {
  private readonly removedBy: number;
  private firstMissing: number | undefined;
  private isVouchedFor = false;

  constructor(removedBy = 0) {
    this.removedBy = removedBy;
  }

  mayMiss(seq: number): boolean {
    if (seq >= this.removedBy) return false;
    this.firstMissing ??= seq;
    return true;
  }

  see(envelope: Envelope): void {
    if (isRemovalKind(envelope)) this.isVouchedFor = envelope.seq === this.removedBy && envelope.kind === removedKind;
  }

  /** The first block that lacks its scans although nothing that stands says why. */
  notVouchedFor(): number | undefined {
    return this.isVouchedFor ? undefined : this.firstMissing;
  }
}
