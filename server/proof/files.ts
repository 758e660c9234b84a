/** The files of a package beside its chain: each is the one that the station put in, and none is missing or added. */
import { sha256Hex } from '../ledger/hash.ts';
import { headBytes, headText } from '../ledger/head-text.ts';
import type { RecordKey } from '../ledger/keys.ts';
import type { ChainSight } from '../ledger/sight.ts';
import type { VerifySignature } from '../ledger/signatures.ts';
import type { ChainCheck } from '../ledger/verify.ts';
import { type Files, file, stampedFile, stampFile, sumsIn } from './layout.ts';

export interface FileFault {
  readonly file: string;
  readonly why:
    | 'altered'
    | 'missing'
    | 'added'
    /** The list of the files is not signed by the record's key. */
    | 'not sealed'
    /** A document whose bytes are not those that an entry hands in. */
    | 'not the document'
    | 'not the head'
    /** Another answer, or another head, than the entry holds. */
    | 'not the stamp'
    /** A head that was given is of another joint. */
    | 'of another joint';
}

export interface Beside {
  readonly check: ChainCheck;
  readonly keys: readonly RecordKey[];
  readonly verify: VerifySignature;
  readonly seen: ChainSight;
  readonly foreign: readonly string[];
}

export const fileFaults = (
  files: Files,
  { check, keys, verify, seen, foreign }: Beside,
): { readonly faults: readonly FileFault[]; readonly sealed: boolean } => {
  const faults: FileFault[] = foreign.map((head) => ({ file: head, why: 'of another joint' }));
  const sums = files[file.sums];
  if (sums === undefined) faults.push({ file: file.sums, why: 'missing' });
  else faults.push(...againstSums(files, sumsIn(sums)));
  const seal = files[file.sumsSignature];
  const key = keys.at(-1);
  const sealed = sums !== undefined && seal !== undefined && key !== undefined && verify(key.key, sums, seal);
  if (seal !== undefined && !sealed) faults.push({ file: file.sums, why: 'not sealed' });
  // A package of a signed record without its seal has lost it: what no entry vouches for could be anything.
  if (seal === undefined && key !== undefined) faults.push({ file: file.sumsSignature, why: 'missing' });
  faults.push(...documentFaults(files, seen), ...stampFaults(files, seen));
  const head = files[file.head];
  if (
    check.ok &&
    (head === undefined || new TextDecoder().decode(head) !== headText({ chain: check.chain, ...check.head }))
  )
    faults.push({ file: file.head, why: 'not the head' });
  return { faults: dropRepeats(faults), sealed };
};

const againstSums = (files: Files, sums: ReadonlyMap<string, string>): FileFault[] => {
  const unlisted = new Set<string>([file.sums, file.sumsSignature]);
  return [
    ...[...sums].flatMap(([name, hash]): FileFault[] => {
      const bytes = files[name];
      if (bytes === undefined) return [{ file: name, why: 'missing' }];
      return sha256Hex(bytes) === hash ? [] : [{ file: name, why: 'altered' }];
    }),
    ...Object.keys(files)
      .filter((name) => !sums.has(name) && !unlisted.has(name))
      .map((name): FileFault => ({ file: name, why: 'added' })),
  ];
};

/** By the hash that the entries give, whatever the list of the files says. */
const documentFaults = (files: Files, { attached }: ChainSight): FileFault[] => {
  const names = Object.keys(files).filter((name) => name.startsWith('documents/'));
  const there = new Map(names.map((name) => [name.slice('documents/'.length, 'documents/'.length + 64), name]));
  return [...attached].flatMap((sha256): FileFault[] => {
    const name = there.get(sha256);
    if (name === undefined) return [{ file: `documents/${sha256}`, why: 'missing' }];
    return sha256Hex(files[name]!) === sha256 ? [] : [{ file: name, why: 'not the document' }];
  });
};

const stampFaults = (files: Files, { stamps }: ChainSight): FileFault[] =>
  stamps.flatMap(({ seq, head, answer }) =>
    [[stampFile(seq), answer] as const, [stampedFile(seq), headBytes(head)] as const].flatMap(
      ([name, bytes]): FileFault[] => {
        const found = files[name];
        if (found === undefined) return [{ file: name, why: 'missing' }];
        return sha256Hex(found) === sha256Hex(bytes) ? [] : [{ file: name, why: 'not the stamp' }];
      },
    ),
  );

const dropRepeats = (faults: readonly FileFault[]): FileFault[] =>
  faults.filter((fault, index) => faults.findIndex((each) => each.file === fault.file) === index);
