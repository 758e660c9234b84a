/** Who signs what is written: the station's key, taken up when the record is opened and named in it once. */
import { readEnvelope } from '../ledger/envelope.ts';
import { stationChain } from '../ledger/item.ts';
import { type KeyBody, keyKind } from '../ledger/keys.ts';
import type { Instant } from '../measure/quantity.ts';
import type { Database } from './database.ts';
import { RecordRefusal } from './failure.ts';
import { unpackEntry } from './packed-entry.ts';
import { addSignatureTable } from './schema.ts';
import type { Transactions } from './transactions.ts';

/** The key itself stays where it is; what it can do is handed over. */
export interface Signer {
  /** 64 hexadecimal digits. */
  readonly publicKey: string;
  /** Ed25519 (RFC 8032), 64 bytes. */
  readonly sign: (bytes: Uint8Array) => Uint8Array;
}
/** A signer with the number that its key has in the record. */
export interface Pen {
  readonly key: number;
  readonly sign: Signer['sign'];
}

/** Public keys in the order in which the record names them. */
export const keysNamed = (database: Database): readonly string[] =>
  database
    .all<{ bytes: Uint8Array }>(
      "SELECT bytes FROM entries WHERE chain = ? AND class = 'block' AND kind = ? ORDER BY seq",
      stationChain,
      keyKind,
    )
    .map(({ bytes }) => (readEnvelope(unpackEntry(bytes)).body as KeyBody).key);

export interface KeyOptions {
  readonly folder: string;
  readonly now: () => Instant;
  /** The station's key, for a record that names these keys so far. May refuse. Without it nothing is signed. */
  readonly signer?: (keys: readonly string[]) => Signer;
  /** Why the key that the record goes by is not there any more: the signer's then signs itself in. */
  readonly lost?: string;
}

/** From here on the key signs; one that the record does not name yet is named first, signed by itself. */
export const takePen = (database: Database, transactions: Transactions, options: KeyOptions): void => {
  const keys = keysNamed(database);
  if (options.signer === undefined) {
    if (keys.length > 0)
      throw new RecordRefusal(
        'no key',
        `The record in ${options.folder} is signed; it cannot be written to without its key.`,
      );
    return;
  }
  const { publicKey, sign } = options.signer(keys);
  if (keys.length === 0 || options.lost !== undefined) {
    addSignatureTable(database);
    transactions.pen = { key: keys.length + 1, sign };
    nameKey(transactions, options.now(), {
      key: publicKey,
      ...(options.lost === undefined ? {} : { reason: options.lost }),
    });
    return;
  }
  if (keys.at(-1) !== publicKey)
    throw new RecordRefusal('no key', `The record in ${options.folder} is signed by another key than the one given.`);
  transactions.pen = { key: keys.length, sign };
};

/** Another key signs from here on: it is signed in by the one that signs now. */
export const handOverKey = (transactions: Transactions, at: Instant, next: Signer, reason: string): void => {
  const { pen } = transactions;
  if (pen === undefined) throw new Error('a record without a key has none to hand over');
  nameKey(transactions, at, { key: next.publicKey, reason });
  transactions.pen = { key: pen.key + 1, sign: next.sign };
};

const nameKey = (transactions: Transactions, at: Instant, body: KeyBody): void => {
  transactions.write((batch) => batch.write(stationChain, at, keyKind, body));
};
