/** The scans of a package's entries, for whoever draws them. */
import { type BlockBody, blockKind, isFilled } from '../ledger/block.ts';
import { readEnvelope } from '../ledger/envelope.ts';
import { decodeScans } from '../ledger/scans-read.ts';
import type { Scan } from '../weld/scan.ts';
import type { EntryText } from './rules-script.ts';

const encoder = new TextEncoder();

export function* textScans(texts: Iterable<EntryText>): Generator<Scan, void> {
  for (const [entry, scans] of texts) {
    if (scans === null) continue;
    const { kind, body } = readEnvelope(encoder.encode(entry));
    if (kind === blockKind && isFilled(body as BlockBody))
      yield* decodeScans(encoder.encode(scans), (body as BlockBody).count);
  }
}
