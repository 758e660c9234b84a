/**
 * Makes the package of one joint: what a stranger needs to verify it, judge it again and believe it, without this program
 * and without us. The same record, zone and version give the same bytes.
 */
import { type BlockBody, openBytes } from '../../ledger/block.ts';
import { readEnvelope } from '../../ledger/envelope.ts';
import { headBytes, headText } from '../../ledger/head-text.ts';
import { stationChain } from '../../ledger/item.ts';
import { keyNamedBy, pemOfKey } from '../../ledger/keys.ts';
import { stampNamedBy } from '../../ledger/stamp-entry.ts';
import type { StoredRow } from '../../ledger/verify.ts';
import {
  bytesOf,
  documentFile,
  type Files,
  file,
  joinLines,
  keyFile,
  rulesFile,
  signatureLine,
  stampedFile,
  stampFile,
  sumsOf,
} from '../../proof/layout.ts';
import { zipped } from '../../proof/zip.ts';
import type { RecordReader } from '../../record/read.ts';
import { jointJsonSchema } from '../../weld/schema-of.ts';
import { howToVerify } from './how-to-verify.ts';

export interface PackageParts {
  readonly reader: RecordReader;
  readonly chain: string;
  readonly report: Uint8Array;
  /** Tables; none where the readings were removed. */
  readonly readings?: Uint8Array;
  readonly passes?: Uint8Array;
  /** FORMAT.md and VERIFY.html as they are shipped. */
  readonly format: Uint8Array;
  readonly page: Uint8Array;
  /** Signs the list of the files; undefined where the record has no key. */
  readonly seal?: (bytes: Uint8Array) => Uint8Array;
}

export const makePackage = ({
  reader,
  chain,
  report,
  readings,
  passes,
  format,
  page,
  seal,
}: PackageParts): Uint8Array => {
  const rows = [...reader.stored(chain)];
  if (rows.length === 0) throw new Error(`the record has no joint of the name ${chain}`);
  const station = [...reader.stored(stationChain)].filter(namesKeyOrRules);
  const head = rows.at(-1)!;
  const away = reader.removed(chain)?.package;
  const stamps = rows.flatMap(({ bytes }) => stampNamedBy(readEnvelope(bytes))?.seq ?? []);
  const contents: Files = {
    [file.entries]: joinLines(rows.map(({ bytes }) => bytes)),
    [file.scans]: joinLines(rows.flatMap(scansOf)),
    ...signatureFile(file.signatures, rows),
    [file.station]: joinLines(station.map(({ bytes }) => bytes)),
    ...signatureFile(file.stationSignatures, station),
    [file.head]: bytesOf(headText({ chain, seq: head.seq, hash: head.hash })),
    ...(head.signature === undefined ? {} : { [file.headSignature]: head.signature.signature }),
    ...keyFiles(station),
    ...documentFiles(reader, rows),
    ...rulesFiles(reader, station),
    ...stampFiles(rows),
    [file.report]: report,
    ...(readings === undefined ? {} : { [file.readings]: readings }),
    ...(passes === undefined ? {} : { [file.passes]: passes }),
    [file.schema]: bytesOf(`${JSON.stringify(jointJsonSchema(), null, 2)}\n`),
    [file.format]: format,
    [file.page]: page,
    [file.howTo]: bytesOf(
      howToVerify({
        ...{ chain, isSigned: head.signature !== undefined, key: head.signature?.key ?? 1, stamps },
        ...(away === undefined ? {} : { away }),
      }),
    ),
  };
  const sums = sumsOf(contents);
  return zipped({
    ...contents,
    [file.sums]: sums,
    ...(seal === undefined || head.signature === undefined ? {} : { [file.sumsSignature]: seal(sums) }),
  });
};

const scansOf = ({ bytes, packed }: StoredRow): readonly Uint8Array[] =>
  packed === undefined ? [] : [openBytes(readEnvelope(bytes).body as BlockBody, packed)];

const namesKeyOrRules = ({ bytes }: StoredRow): boolean => {
  const envelope = readEnvelope(bytes);
  return keyNamedBy(envelope) !== undefined || rulesNamedBy(bytes) !== undefined;
};

const rulesNamedBy = (bytes: Uint8Array): string | undefined => {
  const { kind, class: kindOf, body } = readEnvelope(bytes);
  return kindOf === 'block' && kind === 'program' ? (body as { readonly rules?: string }).rules : undefined;
};

const signatureFile = (name: string, rows: readonly StoredRow[]): Files => {
  const lines = rows.flatMap(({ seq, signature }) => (signature === undefined ? [] : [signatureLine(seq, signature)]));
  return lines.length === 0 ? {} : { [name]: joinLines(lines) };
};

const keyFiles = (station: readonly StoredRow[]): Files => {
  const keys = station.flatMap(({ bytes }) => keyNamedBy(readEnvelope(bytes))?.key ?? []);
  return Object.fromEntries(keys.map((key, index) => [keyFile(index + 1), bytesOf(pemOfKey(key))]));
};

/** What entries hand in; where it is missing the package is made all the same, and its verification says so. */
const documentFiles = (reader: RecordReader, rows: readonly StoredRow[]): Files => {
  const named = rows.flatMap(({ bytes }) => {
    const { body } = readEnvelope(bytes);
    const { kind, sha256, document } = body as { kind?: string; sha256?: string; document?: string };
    return [kind === 'attach' ? sha256 : undefined, document].filter((each) => typeof each === 'string');
  });
  return Object.fromEntries(
    [...new Set(named)].flatMap((sha256) => {
      const kept = reader.document(sha256);
      return kept === undefined ? [] : [[documentFile(sha256, kept.mediaType), kept.bytes] as const];
    }),
  );
};

/** What entries keep, as a file that OpenSSL takes, and beside it what was stamped. */
const stampFiles = (rows: readonly StoredRow[]): Files =>
  Object.fromEntries(
    rows.flatMap(({ bytes }) => {
      const kept = stampNamedBy(readEnvelope(bytes));
      if (kept === undefined) return [];
      return [[stampFile(kept.seq), kept.answer] as const, [stampedFile(kept.seq), headBytes(kept.head)] as const];
    }),
  );

const rulesFiles = (reader: RecordReader, station: readonly StoredRow[]): Files =>
  Object.fromEntries(
    station.flatMap(({ bytes }) => {
      const sha256 = rulesNamedBy(bytes);
      const kept = sha256 === undefined ? undefined : reader.document(sha256);
      return sha256 === undefined || kept === undefined ? [] : [[rulesFile(sha256), kept.bytes] as const];
    }),
  );
