/**
 * A whole record, believed in nothing: every chain, the heads that the station's chain has noted, the
 * scans not sealed yet, the documents. Names the first entry that is not as it was written. Reads beside
 * a running writer: it looks at the record as it stood when the inspection began.
 */
import { proceduresChain, stationChain } from '../ledger/item.ts';
import { type KeyFault, type KnownElsewhere, keyFaultsOf } from '../ledger/key-faults.ts';
import type { RecordKey } from '../ledger/keys.ts';
import { decodeScans } from '../ledger/scans-read.ts';
import { watchSignatures } from '../ledger/signatures.ts';
import type { FirstBad, Head } from '../ledger/verify.ts';
import { firstRewritten, holds, inspectStamps, type SeenStamp } from '../proof/stamps.ts';
import type { Input } from '../weld/entry.ts';
import { mathematics } from './certificate-signature.ts';
import { type ChainInspection, inspectChain } from './chain-inspection.ts';
import { type Database, type Disk, snapshot } from './database.ts';
import { sha256 as sha256Of, verifyEd25519 } from './ed25519.ts';
import { isDamaged, RecordRefusal, wordsOf } from './failure.ts';
import { openFolderToRead } from './folder.ts';
import { readerOf } from './read.ts';
import { sqliteDisk } from './sqlite.ts';
import { standingAt } from './stamps-kept.ts';
import type { ReadingsHeld } from './walk.ts';

/** Folds the inputs of one joint and says what comes out. */
export type Rejudge = (inputs: Iterable<Input>) => { readonly verdict: string };

export interface InspectionOptions extends KnownElsewhere {
  readonly rejudge?: Rejudge;
  /** Readings that were removed, as packages hold them: looked at as if they were in the record. */
  readonly readings?: ReadingsHeld;
  readonly disk?: Disk;
}
export interface InspectedChain extends Omit<ChainInspection, 'stamps'> {
  readonly stamps: readonly SeenStamp[];
  readonly unsealed: number;
  readonly rejudgedVerdict?: string;
  /** Why it could not be judged anew, where that was asked for. */
  readonly notRejudged?: string;
  /** True where both verdicts are there and differ. */
  readonly verdictDiffers: boolean;
}
export interface RecordInspection {
  /** Every chain and document is as it was written. */
  readonly ok: boolean;
  readonly verdictDiffers: boolean;
  /** The database file itself cannot be read through. */
  readonly damaged?: string;
  readonly chains: readonly InspectedChain[];
  readonly documents: {
    readonly kept: number;
    readonly altered: readonly string[];
    /** Handed in by an entry, and not there. */
    readonly missing: readonly string[];
    /** Named by an analysis, and never kept here. */
    readonly notKept: readonly string[];
  };
  readonly procedures: {
    readonly revisions: number;
    /** Revisions that a joint is bound to and that this record does not keep; the joint carries their values. */
    readonly notKept: readonly string[];
  };
  /** The keys that signed the record, oldest first. Empty: it is not signed. */
  readonly keys: readonly RecordKey[];
  /** What speaks against the keys, though each entry may stand. */
  readonly keyFaults: readonly KeyFault[];
  readonly firstBad?: FirstBad & { readonly chain: string };
}
/** Throws RecordRefusal where there is no record to look at. */
export const inspectRecord = (folder: string, options: InspectionOptions = {}): RecordInspection => {
  let database: Database | undefined;
  try {
    database = openFolderToRead(folder, options.disk ?? sqliteDisk);
    return inspect(database, options);
  } catch (error) {
    const cause = error instanceof RecordRefusal && error.reason === 'not possible' ? error.cause : error;
    if (!isDamaged(cause)) throw error;
    const documents = { kept: 0, altered: [], missing: [], notKept: [] };
    const procedures = { revisions: 0, notKept: [] };
    const none = { chains: [], documents, procedures, keys: [], keyFaults: [] };
    return { ok: false, verdictDiffers: false, damaged: wordsOf(cause), ...none };
  } finally {
    database?.close();
  }
};

interface Standing extends Head {
  readonly chain: string;
  readonly lastSeq: number;
  readonly unsealed: number;
}

const inspect = (database: Database, options: InspectionOptions): RecordInspection => {
  const sound = database.get<{ quick_check: string }>('PRAGMA quick_check(1)')?.quick_check;
  const standing = standingOf(database);
  const keys: RecordKey[] = [];
  const inspectOne = (chain: string, noted: readonly Head[]): InspectedChain =>
    inspectStanding(database, standing, chain, [...noted, ...knownOf(options, chain)], keys, options);
  const station = inspectOne(stationChain, []);
  const others = new Set([
    ...standing.keys(),
    ...station.noted.keys(),
    ...(options.knownHeads ?? []).map((head) => head.chain),
  ]);
  others.delete(stationChain);
  const chains = [station];
  for (const chain of [...others].sort()) chains.push(inspectOne(chain, station.noted.get(chain) ?? []));
  const keyFaults = keyFaultsOf(keys, options, verifyEd25519);
  const documents = inspectDocuments(database, chains);
  const bad = chains.find((chain) => chain.firstBad !== undefined);
  const whole = documents.altered.length === 0 && documents.missing.length === 0;
  const stamped = chains.every(({ stamps }) => stamps.every(holds));
  const ok = sound === 'ok' && bad === undefined && whole && keyFaults.length === 0 && stamped;
  return {
    ok,
    verdictDiffers: chains.some((chain) => chain.verdictDiffers),
    ...(sound === 'ok' ? {} : { damaged: String(sound) }),
    chains,
    documents,
    procedures: inspectProcedures(chains),
    keys,
    keyFaults,
    ...(bad?.firstBad === undefined ? {} : { firstBad: { chain: bad.chain, ...bad.firstBad } }),
  };
};

const knownOf = (options: InspectionOptions, chain: string): readonly Head[] =>
  (options.knownHeads ?? []).filter((head) => head.chain === chain);

/** How each chain stood when the inspection began: the head kept for speed, and what is really there. */
const standingOf = (database: Database): ReadonlyMap<string, Standing> =>
  snapshot(database, () => {
    const rows = database.all<Standing>(
      'SELECT chain, max(seq) AS seq, max(hash) AS hash, max(lastSeq) AS lastSeq, max(unsealed) AS unsealed FROM (' +
        'SELECT chain, seq, hash, 0 AS lastSeq, journalled AS unsealed FROM chains UNION ALL ' +
        "SELECT chain, 0, '', max(seq), 0 FROM entries GROUP BY chain UNION ALL " +
        "SELECT chain, 0, '', 0, 0 FROM journal GROUP BY chain) GROUP BY chain",
    );
    return new Map(rows.map((row) => [row.chain, row]));
  });

const inspectStanding = (
  database: Database,
  standing: ReadonlyMap<string, Standing>,
  chain: string,
  known: readonly Head[],
  keys: RecordKey[],
  options: InspectionOptions,
): InspectedChain => {
  const stands = standing.get(chain) ?? { chain, seq: 0, hash: '', lastSeq: 0, unsealed: 0 };
  const last = Math.max(stands.lastSeq, stands.seq);
  const seen = inspectChain(
    database,
    chain,
    last,
    [...known, stands],
    watchSignatures(keys, verifyEd25519),
    options.readings,
  );
  const stamps = inspectStamps(seen.stamps, (seq) => standingAt(database, chain, seq), mathematics, options.trusted);
  const firstBad =
    seen.firstBad ??
    firstRewritten(stamps) ??
    unknownEnd(seen, stands) ??
    badBeginning(seen) ??
    unsealedFault(database, stands);
  const rejudged = firstBad === undefined && seen.openedAt !== undefined ? rejudge(database, chain, options) : {};
  return {
    ...seen,
    stamps,
    ok: firstBad === undefined,
    ...(firstBad === undefined ? {} : { firstBad }),
    unsealed: stands.unsealed,
    ...rejudged,
    verdictDiffers: differs(seen.recordedVerdict, rejudged.rejudgedVerdict),
  };
};

const rejudge = (
  database: Database,
  chain: string,
  options: InspectionOptions,
): Pick<InspectedChain, 'rejudgedVerdict' | 'notRejudged'> => {
  if (options.rejudge === undefined) return {};
  try {
    return { rejudgedVerdict: options.rejudge(readerOf(database, options.readings).inputs(chain)).verdict };
  } catch (error) {
    return { notRejudged: wordsOf(error) };
  }
};

const differs = (recorded: string | undefined, now: string | undefined): boolean =>
  recorded !== undefined && now !== undefined && recorded !== now;

/** Entries beyond the head that the record itself knows were not written by it. */
const unknownEnd = (seen: ChainInspection, stands: Standing): FirstBad | undefined =>
  seen.head.seq === stands.seq
    ? undefined
    : { seq: stands.seq + 1, why: 'put in', detail: 'the record does not know of this entry' };

/** A station's chain that does not begin with its beginning has lost it, or is another one's. */
const badBeginning = (seen: ChainInspection): FirstBad | undefined =>
  seen.chain === stationChain && seen.entries === 0
    ? { seq: 1, why: 'missing', detail: 'the beginning of the record is not there' }
    : undefined;

/**
 * Scans not sealed yet carry no hash. What can be said: they are as many as were counted, and they can be
 * read. A writer that sealed them since the inspection began has not lost them.
 */
const unsealedFault = (database: Database, stands: Standing): FirstBad | undefined =>
  snapshot(database, () => {
    const now = database.get<{ seq: number; journalled: number }>(
      'SELECT seq, journalled FROM chains WHERE chain = ?',
      stands.chain,
    ) ?? { seq: 0, journalled: 0 };
    let count = 0;
    for (let after = 0; ; ) {
      const rows = database.all<{ position: number; measured_at: number; scan: Uint8Array }>(
        'SELECT position, measured_at, scan FROM journal WHERE chain = ? AND position > ? ORDER BY position LIMIT 500',
        stands.chain,
        after,
      );
      for (const row of rows) {
        try {
          if (decodeScans(row.scan, 1)[0]!.measuredAt !== row.measured_at)
            throw new Error('it is filed under another time');
        } catch (error) {
          return {
            seq: now.seq + 1,
            why: 'scans altered',
            detail: `the scan at position ${row.position}, not sealed yet: ${wordsOf(error)}`,
          };
        }
      }
      count += rows.length;
      if (rows.length < 500) break;
      after = rows.at(-1)!.position;
    }
    if (count === now.journalled) return undefined;
    return {
      seq: now.seq + 1,
      why: 'missing',
      detail: `${count} scans wait to be sealed where ${now.journalled} were counted`,
    };
  });

const inspectProcedures = (chains: readonly InspectedChain[]): RecordInspection['procedures'] => {
  const revisions = new Set(chains.find(({ chain }) => chain === proceduresChain)?.revisions ?? []);
  const bound = new Set(chains.flatMap((chain) => [...chain.bound]));
  return { revisions: revisions.size, notKept: [...bound].filter((sha256) => !revisions.has(sha256)).sort() };
};

const inspectDocuments = (database: Database, chains: readonly InspectedChain[]): RecordInspection['documents'] => {
  const kept = database
    .all<{ sha256: string }>('SELECT sha256 FROM documents ORDER BY sha256')
    .map((row) => row.sha256);
  const altered = kept.filter((sha256) => {
    const bytes = database.get<{ bytes: Uint8Array }>('SELECT bytes FROM documents WHERE sha256 = ?', sha256)?.bytes;
    return bytes === undefined || sha256Of(bytes) !== sha256;
  });
  const there = new Set(kept);
  const absent = (names: readonly string[]): string[] => [...new Set(names)].filter((name) => !there.has(name)).sort();
  const missing = absent(chains.flatMap((chain) => [...chain.attached]));
  const notKept = absent(chains.flatMap((chain) => [...chain.named])).filter((name) => !missing.includes(name));
  return { kept: kept.length, altered, missing, notKept };
};
