/**
 * The rules as one script: this file is what the build bundles, with all that it needs, into a script that uses nothing
 * but the language. It takes the entries of a chain as text and answers as text, so that it can be run years later, in
 * a place that hands it nothing else. FORMAT.md says what goes in and what comes out.
 */
import { judgeAll } from '../judgement/judge.ts';
import { type Envelope, readEnvelope } from '../ledger/envelope.ts';
import { type Item, inputOf } from '../ledger/item.ts';
import { sealedBy } from '../ledger/removal-entry.ts';
import { decodeScans } from '../ledger/scans-read.ts';
import type { Input } from '../weld/entry.ts';

export type EntryText = readonly [entry: string, scans: string | null];
export interface Rejudged {
  readonly verdict: string;
  readonly findings: readonly {
    readonly key: string;
    readonly severity: string;
    readonly from: number;
    readonly to?: number;
  }[];
}

export const judge = (text: string): string => JSON.stringify(rejudge(JSON.parse(text) as readonly EntryText[]));

const rejudge = (entries: readonly EntryText[]): Rejudged => {
  const { verdict, findings } = judgeAll({ [Symbol.iterator]: () => inputsOf(entries) }).assessment;
  return {
    verdict,
    findings: findings.map(({ key, severity, from, to }) => ({
      key,
      severity,
      from,
      ...(to === undefined ? {} : { to }),
    })),
  };
};

const encoder = new TextEncoder();

/** The inputs of the judge, in the order of the chain. */
function* inputsOf(entries: Iterable<EntryText>): Generator<Input, void> {
  for (const [entry, scans] of entries) {
    const envelope = readEnvelope(encoder.encode(entry));
    if (envelope.class === 'block') yield* scansOf(envelope, scans);
    else if (envelope.class === 'input') {
      const input = inputOf(itemOf(envelope));
      if (input !== undefined) yield input;
    }
  }
}

/** Without the readings nothing is judged: a verdict on less than all would be another one, and look like it. */
function* scansOf(envelope: Envelope, scans: string | null): Generator<Input, void> {
  const body = sealedBy(envelope);
  if (body === undefined) return;
  if (scans === null) throw new Error(`the readings of entry ${envelope.seq} are not here`);
  for (const scan of decodeScans(encoder.encode(scans), body.count)) yield { type: 'scan', scan };
}

const itemOf = ({ format: _, seq: __, previous: ___, ...entry }: Envelope): Item =>
  ({ ...entry, type: 'entry' }) as Item;
