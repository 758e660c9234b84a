/** The time stamps of a chain, believed in nothing: does each hold, and does what it stamped stand in this chain? */
import { type ChainHeadText, headBytes, headText } from '../ledger/head-text.ts';
import type { VerifySignature } from '../ledger/signatures.ts';
import type { StampEntry } from '../ledger/stamp-entry.ts';
import type { FirstBad } from '../ledger/verify.ts';
import type { Instant } from '../measure/quantity.ts';
import type { Certificate } from '../stamp/certificate.ts';
import { checkStamp, type Stamp, type StampFault } from '../stamp/check.ts';
import type { VerifyByCertificate } from '../stamp/scheme.ts';
import { type Trust, trustOf } from '../stamp/trust.ts';

/** Who has the mathematics: Node, or a browser. */
export interface Mathematics {
  readonly verify: VerifySignature;
  readonly byCertificate: VerifyByCertificate;
}
export interface SeenStamp {
  /** The entry that keeps it, and what it stamps. */
  readonly seq: number;
  readonly head: ChainHeadText;
  /** When the stamped entry was written, by the station's clock. */
  readonly writtenAt?: Instant;
  readonly stamp?: Stamp;
  readonly fault?: StampFault;
  /** Where the reader said whom to trust. */
  readonly trust?: Trust;
}
export interface Standing {
  readonly hash: string;
  readonly at: Instant;
}

export const inspectStamps = (
  entries: readonly StampEntry[],
  standing: (seq: number) => Standing | undefined,
  { byCertificate }: Mathematics,
  trusted: readonly Certificate[] | undefined,
): readonly SeenStamp[] =>
  entries.map(({ seq, head, answer, nonce }) => {
    const stands = standing(head.seq);
    const seen = { seq, head, ...(stands === undefined ? {} : { writtenAt: stands.at }) };
    const asked = { text: headBytes(head), ...(nonce === undefined ? {} : { nonce }) };
    const check = checkStamp(answer, asked, byCertificate);
    if ('fault' in check) return { ...seen, fault: check.fault };
    if (stands?.hash !== head.hash) return { ...seen, stamp: check.stamp, fault: { why: 'rewritten' } };
    const trust = trusted === undefined ? {} : { trust: trustOf(check.stamp, trusted, byCertificate) };
    return { ...seen, stamp: check.stamp, ...trust };
  });

/** As data that can be written: without certificates. */
export const plainStamp = ({ stamp, head, ...seen }: SeenStamp): object => {
  if (stamp === undefined) return { ...seen, head: headText(head) };
  const { certificate: _, others: __, ...said } = stamp;
  return { ...seen, head: headText(head), ...said };
};

export const holds = ({ fault, trust }: SeenStamp): boolean =>
  fault === undefined && (trust === undefined || 'by' in trust);

/** The first entry that is not the one that a time stamp, itself in order, was given for. */
export const firstRewritten = (stamps: readonly SeenStamp[]): FirstBad | undefined => {
  const [first] = stamps.filter(({ fault }) => fault?.why === 'rewritten').sort((a, b) => a.head.seq - b.head.seq);
  return (
    first && {
      seq: first.head.seq,
      why: 'not the known head',
      detail: `entry ${first.seq} holds a time stamp of hash ${first.head.hash}`,
    }
  );
};
