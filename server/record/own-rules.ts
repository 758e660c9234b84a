/**
 * Joints of a record judged again by the rules that judged them then: the script that the record keeps, that this
 * installation was built with, or that was handed in, each believed by its SHA-256 alone and run shut in.
 */
import { type BlockBody, openBytes } from '../ledger/block.ts';
import { readEnvelope } from '../ledger/envelope.ts';
import { sha256Hex } from '../ledger/hash.ts';
import { stationChain } from '../ledger/item.ts';
import { type Removed, sealedBy } from '../ledger/removal-entry.ts';
import { heldWhenClosed, type NamedProgram, programNamedBy } from '../proof/programs.ts';
import type { EntryText } from '../proof/rules-script.ts';
import { readingsAwayText } from '../wording/removal.ts';
import { openRecordReadOnly, type RecordReader } from './read.ts';
import { judgeShutIn, type ShutIn } from './shut-in.ts';
import { sqliteDisk } from './sqlite.ts';
import type { ReadingsHeld } from './walk.ts';

export interface ByOwnRules {
  /** What the record calls the program that judged. */
  readonly program: string;
  readonly rules?: string;
  readonly again: ShutIn;
}
export interface AskedJoint {
  readonly chain: string;
  readonly closedAt?: number;
}

/** `scripts`: what is at hand beside what the record keeps. */
export const judgeByOwnRules = async (
  folder: string,
  joints: readonly AskedJoint[],
  scripts: readonly Uint8Array[],
  readings?: ReadingsHeld,
): Promise<ReadonlyMap<string, ByOwnRules>> => {
  const reader = openRecordReadOnly(folder, sqliteDisk, readings);
  const found = new Map<string, ByOwnRules>();
  try {
    const programs = [...reader.stored(stationChain)].flatMap(({ bytes }) => programNamedBy(readEnvelope(bytes)) ?? []);
    const atHand = new Map(scripts.map((bytes) => [sha256Hex(bytes), bytes]));
    for (const { chain, closedAt } of joints) {
      const held = heldWhenClosed(programs, closedAt);
      if (held !== undefined) found.set(chain, await judged(reader, chain, held, atHand));
    }
    return found;
  } finally {
    reader.close();
  }
};

const judged = async (
  reader: RecordReader,
  chain: string,
  { program, rules }: NamedProgram,
  atHand: ReadonlyMap<string, Uint8Array>,
): Promise<ByOwnRules> => {
  if (rules === undefined) return { program, again: { failed: noneNamed } };
  const kept = reader.document(rules)?.bytes;
  const script = kept !== undefined && sha256Hex(kept) === rules ? kept : atHand.get(rules);
  if (script === undefined) return { program, rules, again: { failed: notAtHand(rules) } };
  const texts = textsOf(reader, chain);
  if (typeof texts === 'string') return { program, rules, again: { failed: texts } };
  return { program, rules, again: await judgeShutIn(new TextDecoder().decode(script), JSON.stringify(texts)) };
};

const noneNamed =
  'the record does not say which rules these were: a program that did not bring them as one script wrote it. They cannot be had any more; the rules of today are all that is left';
const notAtHand = (rules: string): string =>
  `the script of these rules, SHA-256 ${rules}, is neither in this record nor in this installation. Take rules/${rules}.js out of any package that was made of this record then, or .build/proof/rules.js of an installation of that program, and give it with --rules FILE`;

/** What is sealed: scans that still wait are not among them. Where readings are not here it says why: rules of before would judge without them. */
const textsOf = (reader: RecordReader, chain: string): EntryText[] | string => {
  const decoder = new TextDecoder();
  const texts: EntryText[] = [];
  for (const { bytes, packed } of reader.stored(chain)) {
    const envelope = readEnvelope(bytes);
    if (packed === undefined && sealedBy(envelope) !== undefined) return awayText(chain, reader.removed(chain));
    texts.push([decoder.decode(bytes), packed === undefined ? null : openText(envelope.body as BlockBody, packed)]);
  }
  return texts;
};

const openText = (body: BlockBody, packed: Uint8Array): string => new TextDecoder().decode(openBytes(body, packed));
const awayText = (chain: string, removed: Removed | undefined): string =>
  removed === undefined ? 'readings are missing' : readingsAwayText(chain, removed);
