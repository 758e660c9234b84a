/**
 * Readings as a package holds them: believed once the package was inspected, and each block by the hash that its entry in the
 * record gives. Handed to whoever asks the record for readings that were removed from it.
 */
import { deflateRawSync } from 'node:zlib';
import { openBlock, sealBlock } from '../ledger/block.ts';
import { readEnvelopeStrictly } from '../ledger/envelope.ts';
import { sealedBy } from '../ledger/removal-entry.ts';
import { inspectPackage, type PackageInspection } from '../proof/inspect-package.ts';
import { standingWords } from '../proof/package-words.ts';
import { unzipped } from '../proof/zip.ts';
import { mathematics } from './certificate-signature.ts';
import { sha256 } from './ed25519.ts';
import type { ReadingsHeld } from './walk.ts';

export interface Packaged {
  /** SHA-256 of the file. */
  readonly sha256: string;
  readonly chain: string;
  readonly seen: PackageInspection;
  /** The scans of a block compressed as a record keeps them; undefined where the package has none. Throws CanonicalFailure. */
  packedOf(seq: number): Uint8Array | undefined;
  has(seq: number): boolean;
}

/** Refused where it is no package, or not intact. */
export const openPackage = (bytes: Uint8Array): Packaged | { readonly refused: string } => {
  const unpacked = unzipped(bytes);
  if ('refused' in unpacked) return unpacked;
  const seen = inspectPackage(unpacked.files, mathematics);
  if (!seen.intact) return { refused: `The package is not intact. ${standingWords(seen).join(' ')}` };
  const { chain, texts } = seen;
  const textOf = (seq: number) => texts[seq - 1] ?? (['', null] as const);
  return {
    sha256: sha256(bytes),
    chain,
    seen,
    has: (seq) => textOf(seq)[1] !== null,
    packedOf(seq) {
      const [entry, scans] = textOf(seq);
      return scans === null ? undefined : repacked(entry, scans);
    },
  };
};

/** As the station packs what it seals. */
const repacked = (entry: string, scans: string): Uint8Array => {
  const body = sealedBy(readEnvelopeStrictly(Buffer.from(entry, 'utf8')))!;
  const kept = deflateRawSync(Buffer.from(scans, 'utf8'));
  const sealed = sealBlock(openBlock(body, kept), deflateRawSync);
  // What would not give back the very bytes is kept as it came.
  return 'scans' in sealed.body && sealed.body.scans === body.scans ? sealed.packed : kept;
};

/** Several packages, each for its joint. */
export const heldIn = (packages: readonly Packaged[]): ReadingsHeld => ({
  packedOf: (chain, seq) => packages.find((each) => each.chain === chain)?.packedOf(seq),
});
