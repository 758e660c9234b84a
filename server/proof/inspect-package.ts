/**
 * A package, believed in nothing: is its chain as it was written, is every entry signed, are all of its files those that
 * the station put in, and does the record cover the time that it speaks of? Pure, so that the command and the page in
 * the package look with the same eyes; the mathematics of signatures is handed in.
 */
import { deflateSync } from 'fflate';
import { type Envelope, readEnvelope, readEnvelopeStrictly } from '../ledger/envelope.ts';
import { sha256Hex } from '../ledger/hash.ts';
import { headText } from '../ledger/head-text.ts';
import { stationChain } from '../ledger/item.ts';
import { type KeyFault, type KnownElsewhere, keyFaultsOf } from '../ledger/key-faults.ts';
import type { RecordKey } from '../ledger/keys.ts';
import { isRemovalKind, isRemoved, type Removed, removedKind, sealedBy } from '../ledger/removal-entry.ts';
import { type ChainSight, Sight } from '../ledger/sight.ts';
import { type VerifySignature, watchSignatures } from '../ledger/signatures.ts';
import { type ChainCheck, type FirstBad, type StoredRow, verifyChain } from '../ledger/verify.ts';
import { type FileFault, fileFaults } from './files.ts';
import { type Files, file, rulesFile, signaturesIn, splitLines } from './layout.ts';
import { heldWhenClosed, type NamedProgram, programNamedBy } from './programs.ts';
import type { EntryText } from './rules-script.ts';
import { firstRewritten, holds, inspectStamps, type Mathematics, type SeenStamp, type Standing } from './stamps.ts';

export interface PackageInspection extends Omit<ChainSight, 'stamps'>, ChainCheck {
  /** Nothing was changed since it was written, as far as the key vouches for it. */
  readonly intact: boolean;
  readonly signedFrom?: number;
  readonly keys: readonly RecordKey[];
  readonly keyFaults: readonly KeyFault[];
  /** What is wrong with an entry of the station's chain that came along. */
  readonly stationFault?: FirstBad;
  readonly fileFaults: readonly FileFault[];
  readonly stamps: readonly SeenStamp[];
  /** Whether the station's key vouches for the files that no entry vouches for. */
  readonly sealed: boolean;
  /** The script that judged when the verdict fell; undefined where the record names none. */
  readonly rules?: { readonly sha256: string; readonly program: string; readonly script?: string };
  /** The removal before which the package was not made: it holds no readings, and another one does. */
  readonly away?: Removed;
  /** For whoever judges anew. */
  readonly texts: readonly EntryText[];
}

const decoder = new TextDecoder();

export const inspectPackage = (
  files: Files,
  mathematics: Mathematics,
  known: KnownElsewhere = {},
): PackageInspection => {
  const { verify } = mathematics;
  const lines = splitLines(files[file.entries] ?? new Uint8Array(0));
  const chain = chainNamed(lines[0]);
  const keys: RecordKey[] = [];
  const station = inspectStation(files, keys, verify);
  const signatures = watchSignatures(keys, verify);
  const sight = new Sight();
  const removedBy = newestRemoval(lines);
  const rows = [...rowsOf(lines, files, removedBy)];
  const walked = verifyChain(chain, rows, {
    ...(removedBy === undefined ? {} : { removedBy }),
    expectedHeads: (known.knownHeads ?? []).filter((head) => head.chain === chain),
    signatures,
    visit: (envelope, _, times) => sight.see(envelope, times),
  });
  const from = signatures.from();
  const seen = sight.seen();
  const newest = seen.removals.at(-1);
  const stamps = inspectStamps(seen.stamps, (seq) => standingOf(rows[seq - 1]), mathematics, known.trusted);
  const check = withBad(walked, firstRewritten(stamps));
  const { faults, sealed } = fileFaults(files, { check, keys, verify, seen, foreign: headsOfOthers(known, chain) });
  const keyFaults = keyFaultsOf(keys, known, verify);
  const stands = check.ok && station.fault === undefined && faults.length === 0 && keyFaults.length === 0;
  const intact = stands && stamps.every(holds);
  const rules = rulesAt(station.programs, seen.closedAt, files);
  return {
    ...{ ...seen, ...check, stamps, intact, keys, keyFaults, fileFaults: faults, sealed },
    ...(from === undefined ? {} : { signedFrom: from }),
    ...(station.fault === undefined ? {} : { stationFault: station.fault }),
    ...(rules === undefined ? {} : { rules }),
    ...(isRemoved(newest) ? { away: newest } : {}),
    texts: rows.map(({ bytes, scans }) => [decoder.decode(bytes), scans === undefined ? null : decoder.decode(scans)]),
  };
};

const standingOf = (row: StoredRow | undefined): Standing | undefined =>
  row === undefined ? undefined : { hash: row.hash, at: readEnvelope(row.bytes).at };

/** A chain that stands in itself and was rewritten since: what was stamped says so. */
const withBad = (check: ChainCheck, bad: FirstBad | undefined): ChainCheck =>
  check.ok && bad !== undefined ? { ...check, ok: false, firstBad: bad } : check;

const chainNamed = (line: Uint8Array | undefined): string => {
  try {
    return line === undefined ? '' : readEnvelopeStrictly(line).chain;
  } catch {
    return '';
  }
};

/** A head of another joint says nothing of this package: whoever gave it has the wrong one of the two. */
const headsOfOthers = ({ knownHeads = [] }: KnownElsewhere, chain: string): readonly string[] =>
  knownHeads.filter((head) => head.chain !== chain && head.chain !== stationChain).map(headText);

type Row = StoredRow & { readonly scans?: Uint8Array };

/** Number and hash of an entry stand in the entry itself; which scans are whose follows from the order. */
function* rowsOf(lines: readonly Uint8Array[], files: Files, removedBy: number | undefined): Generator<Row, void> {
  const signatures = signaturesIn(files[file.signatures]);
  const blocks = splitLines(files[file.scans] ?? new Uint8Array(0)).values();
  let place = 0;
  for (const bytes of lines) {
    place += 1;
    const seq = place;
    const signature = signatures.get(seq);
    const scans = removedBy === undefined && isBlockWithScans(bytes) ? blocks.next().value : undefined;
    yield {
      ...{ seq, bytes, hash: sha256Hex(bytes) },
      ...(signature === undefined ? {} : { signature }),
      // Compressed without a gain: what is checked is what comes out.
      ...(scans === undefined ? {} : { scans, packed: deflateSync(scans, { level: 0 }) }),
    };
  }
}

const isBlockWithScans = (bytes: Uint8Array): boolean => isOf(bytes, (envelope) => sealedBy(envelope) !== undefined);

/** Number of the newest removal or putting back, where it says that the readings are not here. */
const newestRemoval = (lines: readonly Uint8Array[]): number | undefined => {
  const at = lines.findLastIndex((line) => isOf(line, isRemovalKind));
  return at >= 0 && isOf(lines[at]!, ({ kind }) => kind === removedKind) ? at + 1 : undefined;
};

const isOf = (bytes: Uint8Array, is: (envelope: Envelope) => boolean): boolean => {
  try {
    return is(readEnvelopeStrictly(bytes));
  } catch {
    return false;
  }
};

/** Entries of the station's chain that name keys or rules; they are not neighbours, so that each stands by its signature. */
const inspectStation = (
  files: Files,
  keys: RecordKey[],
  verify: VerifySignature,
): { readonly programs: readonly NamedProgram[]; readonly fault?: FirstBad } => {
  const watch = watchSignatures(keys, verify);
  const signatures = signaturesIn(files[file.stationSignatures]);
  const programs: NamedProgram[] = [];
  let last = 0;
  for (const bytes of splitLines(files[file.station] ?? new Uint8Array(0))) {
    const bad = (detail: string): { programs: NamedProgram[]; fault: FirstBad } => ({
      programs,
      fault: { seq: last + 1, why: 'altered', detail },
    });
    let envelope: Envelope;
    try {
      envelope = readEnvelopeStrictly(bytes);
      if (envelope.chain !== stationChain || envelope.seq <= last) return bad('it is not in its place');
      last = envelope.seq - 1;
      const fault = watch.see(envelope, sha256Hex(bytes), signatures.get(envelope.seq));
      if (fault !== undefined) return { programs, fault: { seq: envelope.seq, why: 'not signed', detail: fault } };
    } catch (error) {
      return bad(error instanceof Error ? error.message : String(error));
    }
    last = envelope.seq;
    const named = programNamedBy(envelope);
    if (named !== undefined) programs.push(named);
  }
  return { programs };
};

const rulesAt = (
  programs: readonly NamedProgram[],
  closedAt: number | undefined,
  files: Files,
): PackageInspection['rules'] => {
  const { rules: sha256, program } = heldWhenClosed(programs, closedAt) ?? {};
  if (sha256 === undefined || program === undefined) return undefined;
  const bytes = files[rulesFile(sha256)];
  const isIt = bytes !== undefined && sha256Hex(bytes) === sha256;
  return { sha256, program, ...(isIt ? { script: decoder.decode(bytes) } : {}) };
};
