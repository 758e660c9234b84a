/**
 * A job that is judged from its logs, as a chain of the record: the same inputs that were judged, closed at their end, in
 * blocks that are sealed here, so that whoever writes the record has only to link and to sign them.
 */
import { deflateRawSync } from 'node:zlib';
import { dispositionProblems } from '../desk/disposition.ts';
import type { Assessment, Verdict } from '../judgement/assessment.ts';
import { type Conclusion, conclusions } from '../judgement/conclusions.ts';
import { judgeAll } from '../judgement/judge.ts';
import { type SealedBlock, sealBlock } from '../ledger/block.ts';
import { sha256Hex } from '../ledger/hash.ts';
import { importedItem, stationName } from '../ledger/item.ts';
import { limits } from '../measure/limits.ts';
import type { Instant } from '../measure/quantity.ts';
import type { WholeItem } from '../record/store.ts';
import type { Act, DispositionAct, Input } from '../weld/entry.ts';
import type { ImportedFile } from '../weld/imported.ts';
import type { Problem } from '../weld/problems.ts';
import type { Scan } from '../weld/scan.ts';
import type { Signed } from '../weld/signed.ts';
import { type Imported, importedInputs } from '../wire/imported-inputs.ts';
import { logReadOf } from '../wire/log-read.ts';
import type { LogSaid } from './logs.ts';

export interface NamedBytes {
  readonly name: string;
  readonly bytes: Uint8Array;
  readonly own?: LogSaid;
}

/** What the chain is made of, without the time at which it is written, which only the writer knows. */
export type WholePart =
  | { readonly input: Exclude<Input, { type: 'scan' }> }
  | { readonly sealed: SealedBlock }
  | { readonly conclusion: Conclusion };

/** What was decided does not fit what was judged; nothing is kept. */
export interface NotDecided {
  readonly notDecided: readonly Problem[];
}

export interface WholeJob {
  readonly chain: string;
  readonly verdict: Verdict;
  readonly parts: readonly WholePart[];
}

export const wholeJob = (
  imported: Imported,
  files: readonly ImportedFile[],
  keeper: Signed,
  decisions: readonly DispositionAct[] = [],
): { readonly job: WholeJob; readonly assessment: Assessment } => {
  const closed = { ...imported, openedBy: keeper.who, acts: closedActs(imported, keeper, decisions) };
  const { assessment } = judgeAll({ [Symbol.iterator]: () => importedInputs(closed)[Symbol.iterator]() });
  const parts: WholePart[] = [];
  let scans: Scan[] = [];
  const perBlock = Math.min(limits.scansPerBlockMaximum, Math.ceil(valuesPerBlock / imported.joint.probes.length));
  const seal = (): void => {
    if (scans.length > 0) parts.push({ sealed: sealBlock(scans, deflateRawSync) });
    scans = [];
  };
  for (const input of importedInputs(closed)) {
    if (input.type === 'scan') {
      scans.push(input.scan);
      if (scans.length >= perBlock) seal();
      continue;
    }
    seal();
    parts.push({ input });
    if (input.type === 'station') {
      for (const file of files) parts.push({ input: { type: 'station', at: input.at, event: file } });
    }
  }
  seal();
  parts.push(...conclusions(undefined, assessment).map((conclusion) => ({ conclusion })));
  return { job: { chain: imported.joint.id, verdict: assessment.verdict, parts }, assessment };
};

/** So that a block stays far within its bound, however many probes there are and whatever words their cells hold. */
const valuesPerBlock = 400_000;

/**
 * All that is known of such a job is there when it is kept: its record is closed at its last reading or act, or where its events
 * say so. What whoever keeps it decides on its deviations comes just before.
 */
const closedActs = (
  { acts, logs }: Imported,
  { who, role }: Signed,
  decisions: readonly DispositionAct[],
): Imported['acts'] => {
  const closing = acts.findIndex(({ act }) => act.kind === 'close');
  const at = acts[closing]?.at ?? (Math.max(logs.lastAt ?? 0, acts.at(-1)?.at ?? 0) as Instant);
  const ofKeeper = (act: Act) => ({ type: 'act' as const, at, who, ...(role === undefined ? {} : { role }), act });
  const before = closing < 0 ? acts : acts.slice(0, closing);
  const end = closing < 0 ? [ofKeeper({ kind: 'close' })] : acts.slice(closing);
  return [...before, ...decisions.map(ofKeeper), ...end];
};

/** Decisions that do not stand in the judgement, each with what is wrong with it. */
export const notDecided = (assessment: Assessment, decisions: readonly DispositionAct[]): Problem[] =>
  decisions.flatMap((act): Problem[] => {
    const stands = assessment.findings.find(({ key }) => key === act.finding)?.disposition;
    if (stands?.decision === act.decision && stands.reason === act.reason) return [];
    const [wrong] = dispositionProblems(act, assessment);
    return [
      wrong ?? { field: 'decisions', found: act.finding, allowed: 'a deviation as it was judged; judge it again' },
    ];
  });

export const wholeItems = ({ chain, parts }: WholeJob, at: Instant, by: Signed): readonly WholeItem[] =>
  parts.map((part): WholeItem => {
    if ('sealed' in part) return { type: 'block', at, sealed: part.sealed };
    if ('input' in part) return importedItem(chain, at, by, part.input);
    const { conclusion: body } = part;
    return { type: 'entry', chain, at, who: stationName, class: 'conclusion', kind: body.kind, body };
  });

/** What is kept of the files themselves. */
export const importedFiles = (
  imported: Imported,
  said: LogSaid,
  logs: readonly NamedBytes[],
  events: readonly NamedBytes[],
): readonly ImportedFile[] => {
  const loggedAt = Math.min(imported.logs.firstAt ?? 0, imported.acts[0]?.at ?? Number.MAX_SAFE_INTEGER) as Instant;
  const identity = ({ name, bytes }: NamedBytes) => ({
    kind: 'imported file' as const,
    name: (name.split(/[\\/]/).at(-1) ?? name).slice(0, limits.textMaximum),
    bytes: bytes.length,
    sha256: sha256Hex(bytes),
    loggedAt,
  });
  return [
    ...logs.map((each, index): ImportedFile => {
      const log = imported.logs.files[index]?.log;
      return {
        ...identity(each),
        of: 'log',
        rows: log?.rows ?? 0,
        ...(log?.firstAt === undefined ? {} : { firstAt: log.firstAt }),
        ...(log?.lastAt === undefined ? {} : { lastAt: log.lastAt }),
        ...(log?.guess === undefined ? {} : { read: logReadOf(log.guess, { ...said, ...each.own }) }),
        passedOver: (log?.skipped ?? []).map(({ line, message }) => ({
          ...(line === undefined ? {} : { line }),
          message,
        })),
      };
    }),
    ...events.map((each): ImportedFile => ({ ...identity(each), of: 'events' })),
  ];
};
