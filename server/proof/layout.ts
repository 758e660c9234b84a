/** The files of a package by their names, and how those that hold lines are written and read. FORMAT.md, section 9. */
import { bytesToHex, hexToBytes } from '@noble/hashes/utils.js';
import { sha256Hex } from '../ledger/hash.ts';
import type { StoredSignature } from '../ledger/signatures.ts';

export const file = {
  entries: 'entries.jsonl',
  scans: 'scans.jsonl',
  signatures: 'signatures.txt',
  station: 'station.jsonl',
  stationSignatures: 'station-signatures.txt',
  head: 'head.txt',
  headSignature: 'head.sig',
  report: 'report.pdf',
  readings: 'readings.csv',
  passes: 'passes.csv',
  schema: 'joint.schema.json',
  format: 'FORMAT.md',
  howTo: 'HOW-TO-VERIFY.txt',
  page: 'VERIFY.html',
  sums: 'SHA256SUMS',
  sumsSignature: 'SHA256SUMS.sig',
} as const;

export type Files = Readonly<Record<string, Uint8Array>>;

const extensions: Readonly<Record<string, string>> = {
  'image/png': 'png',
  'image/jpeg': 'jpg',
  'image/webp': 'webp',
  'application/pdf': 'pdf',
  'text/plain': 'txt',
  'text/csv': 'csv',
};
export const documentFile = (sha256: string, mediaType: string): string =>
  `documents/${sha256}.${extensions[mediaType] ?? 'bin'}`;
export const rulesFile = (sha256: string): string => `rules/${sha256}.js`;
/** A time stamp that an entry keeps: the answer, and what it stamps, without a line feed. */
export const stampFile = (seq: number): string => `stamps/${seq}.tsr`;
export const stampedFile = (seq: number): string => `stamps/${seq}.txt`;
export const keyFile = (number: number): string => `keys/${number}.pem`;

const encoder = new TextEncoder();
export const bytesOf = (text: string): Uint8Array => encoder.encode(text);

const lineFeed = 10;

/** Each with a line feed behind it. Canonical bytes hold none themselves. */
export const joinLines = (lines: readonly Uint8Array[]): Uint8Array => {
  const joined = new Uint8Array(lines.reduce((sum, { length }) => sum + length + 1, 0));
  let place = 0;
  for (const line of lines) {
    joined.set(line, place);
    place += line.length + 1;
    joined[place - 1] = lineFeed;
  }
  return joined;
};

export const splitLines = (bytes: Uint8Array): Uint8Array[] => {
  const lines: Uint8Array[] = [];
  for (let from = 0; from < bytes.length; ) {
    const end = bytes.indexOf(lineFeed, from);
    const to = end < 0 ? bytes.length : end;
    lines.push(bytes.subarray(from, to));
    from = to + 1;
  }
  return lines;
};

export const signatureLine = (seq: number, { key, signature }: StoredSignature): Uint8Array =>
  bytesOf(`${seq} ${key} ${bytesToHex(signature)}`);

/** By the number of the entry. A line that is none is passed over: its entry is then not signed. */
export const signaturesIn = (bytes: Uint8Array | undefined): ReadonlyMap<number, StoredSignature> => {
  const found = new Map<number, StoredSignature>();
  for (const line of textLines(bytes)) {
    const [, seq, key, signature] = /^([1-9]\d{0,14}) ([1-9]\d{0,5}) ([0-9a-f]{128})$/.exec(line) ?? [];
    if (seq !== undefined && signature !== undefined)
      found.set(Number(seq), { key: Number(key), signature: hexToBytes(signature) });
  }
  return found;
};

/** As `sha256sum` writes and checks it. */
export const sumsOf = (files: Files): Uint8Array =>
  joinLines(
    Object.keys(files)
      .sort()
      .map((name) => bytesOf(`${sha256Hex(files[name]!)}  ${name}`)),
  );

export const sumsIn = (bytes: Uint8Array): ReadonlyMap<string, string> =>
  new Map(
    textLines(bytes).flatMap((line) => {
      const [, hash, name] = /^([0-9a-f]{64}) {2}(.+)$/.exec(line) ?? [];
      return hash === undefined || name === undefined ? [] : [[name, hash] as const];
    }),
  );

const textLines = (bytes: Uint8Array | undefined): string[] =>
  bytes === undefined ? [] : splitLines(bytes).map((line) => new TextDecoder().decode(line));
