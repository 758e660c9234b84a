/**
 * The entries that say that the readings of a joint went out of the record into a package, and that they came back. What is
 * removed is always all of them: every block with scans that stands before the entry. FORMAT.md, section 11.
 */
import type { Instant } from '../measure/quantity.ts';
import { type Signed, signedOf } from '../weld/signed.ts';
import { type BlockBody, blockKind, type FilledBody, isFilled } from './block.ts';
import { CanonicalFailure } from './canonical.ts';
import type { Envelope } from './envelope.ts';
import { readHeadText } from './head-text.ts';
import { stationName } from './item.ts';

export const removedKind = 'readings removed';
export const putBackKind = 'readings put back';

/** Which blocks it is about: how many, of how many scans and bytes, and the numbers of the first and the last. */
export interface BlocksTold {
  readonly blocks: number;
  readonly scans: number;
  /** Of the scans' bytes before compression. */
  readonly bytes: number;
  readonly first: number;
  readonly last: number;
}
export interface RemovalBody extends BlocksTold {
  /** SHA-256 of the package that holds the readings, and the newest entry in it. */
  readonly package: string;
  readonly head: string;
  /** Always there where readings are removed. */
  readonly reason?: string;
}
export interface RemovalEntry extends Signed, RemovalBody {
  readonly kind: typeof removedKind | typeof putBackKind;
  readonly seq: number;
  readonly at: Instant;
}

/** A removal that holds: the readings are not in the record. */
export type Removed = RemovalEntry & { readonly kind: typeof removedKind };
export const isRemoved = (entry: RemovalEntry | undefined): entry is Removed => entry?.kind === removedKind;

/** Undefined for an entry of another kind. Throws CanonicalFailure where it is none although it says so. */
export const removalNamedBy = (envelope: Envelope): RemovalEntry | undefined => {
  const { class: kindOf, kind, chain, seq, at, who } = envelope;
  if (kindOf !== 'block' || (kind !== removedKind && kind !== putBackKind)) return undefined;
  const body = envelope.body as Partial<RemovalBody>;
  const head = typeof body.head === 'string' ? readHeadText(body.head) : undefined;
  if (head === undefined || head.chain !== chain || head.seq >= seq)
    throw new CanonicalFailure('head', 'a package ends at an entry before this one in its chain');
  if (!/^[0-9a-f]{64}$/.test(body.package ?? '')) throw new CanonicalFailure('package', 'not a SHA-256');
  for (const key of ['blocks', 'scans', 'bytes', 'first', 'last'] as const)
    if (!Number.isSafeInteger(body[key])) throw new CanonicalFailure(key, 'an integer is missing');
  if (who === stationName) throw new CanonicalFailure('who', 'readings are removed and put back by a person');
  if (body.reason !== undefined && typeof body.reason !== 'string') throw new CanonicalFailure('reason', 'not text');
  if (kind === removedKind && (body.reason ?? '') === '')
    throw new CanonicalFailure('reason', 'readings are removed for a reason');
  return { ...(body as RemovalBody), ...signedOf(envelope), kind, seq, at };
};

export const isRemovalKind = ({ class: kindOf, kind }: Pick<Envelope, 'class' | 'kind'>): boolean =>
  kindOf === 'block' && (kind === removedKind || kind === putBackKind);

/** The body of an entry that seals scans; undefined for every other one. */
export const sealedBy = (envelope: Envelope): FilledBody | undefined => {
  if (envelope.class !== 'block' || envelope.kind !== blockKind) return undefined;
  const body = envelope.body as BlockBody;
  return isFilled(body) ? body : undefined;
};

/** Counts the blocks of a chain as its entries go by. */
export class BlockCount {
  private told: BlocksTold = { blocks: 0, scans: 0, bytes: 0, first: 0, last: 0 };

  see(envelope: Envelope): void {
    const body = sealedBy(envelope);
    if (body === undefined) return;
    const { blocks, scans, bytes, first } = this.told;
    this.told = {
      blocks: blocks + 1,
      scans: scans + body.count,
      bytes: bytes + body.bytes,
      first: blocks === 0 ? envelope.seq : first,
      last: envelope.seq,
    };
  }

  /** Of all that went by so far. */
  sofar(): BlocksTold {
    return this.told;
  }

  isThat(told: BlocksTold): boolean {
    return (Object.keys(this.told) as (keyof BlocksTold)[]).every((key) => this.told[key] === told[key]);
  }
}
