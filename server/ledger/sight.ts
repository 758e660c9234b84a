/**
 * Goes along a chain that stands and notes what it says of itself: which time it covers and where it has gaps, where its
 * readings come from, what it names, how the names in it were established.
 */
import { limits } from '../measure/limits.ts';
import type { Instant } from '../measure/quantity.ts';
import type { Act, Source, StationEvent } from '../weld/entry.ts';
import type { ImportedAct } from '../weld/imported.ts';
import type { Joint } from '../weld/joint.ts';
import type { Proof } from '../weld/person.ts';
import type { ProcedureAct } from '../weld/procedure-act.ts';
import { Coverage, type Gaps } from './coverage.ts';
import type { Envelope } from './envelope.ts';
import { isClosing, stationName } from './item.ts';
import { bindingFault, revisionHash } from './procedures.ts';
import { BlockCount, isRemoved, type RemovalEntry, removalNamedBy, sealedBy } from './removal-entry.ts';
import type { ScanTime } from './scans-times.ts';
import { type StampEntry, stampNamedBy } from './stamp-entry.ts';
import type { Head } from './verify.ts';

/** What can be told of a chain from its entries alone. */
export interface ChainSight {
  readonly scans: number;
  readonly from?: Instant;
  readonly to?: Instant;
  readonly openedAt?: Instant;
  readonly closedAt?: Instant;
  /** The newest statement on where the readings come from, and who vouched for it in words, if anyone. */
  readonly source?: Source;
  readonly declaredBy?: readonly string[];
  /** Time without readings of a board, beyond three periods. */
  readonly gaps: readonly { readonly board: string; readonly gaps: Gaps }[];
  /** Time in which the joint was open and the station gave no sign of being awake. */
  readonly asleep: Gaps;
  /** Times at which an entry is dated before the one that it follows. */
  readonly stepsBack: number;
  /** SHA-256 of documents that entries of this chain hand in; those that entries merely name. */
  readonly attached: ReadonlySet<string>;
  readonly named: ReadonlySet<string>;
  /** SHA-256 of the procedure revisions that this chain records; those that its joint is or was bound to. */
  readonly revisions: ReadonlySet<string>;
  readonly bound: ReadonlySet<string>;
  /** Heads of other chains that this one has noted. */
  readonly noted: ReadonlyMap<string, readonly Head[]>;
  readonly recordedVerdict?: string;
  /** Time stamps of heads of this chain. */
  readonly stamps: readonly StampEntry[];
  /** Each time that the readings were removed into a package, or put back; the newest says where they are. */
  readonly removals: readonly RemovalEntry[];
  /** How the names of who entered something were established, and of how many entries. */
  readonly names: Readonly<Partial<Record<Proof | 'not stated', number>>>;
}

/** A scan is missed once three periods have gone by without one, as on the screen. */
const periodsToGap = 3;

export class Sight {
  private scans = 0;
  private from: Instant | undefined;
  private to: Instant | undefined;
  private openedAt: Instant | undefined;
  private closedAt: Instant | undefined;
  private source: Source | undefined;
  private readonly declaredBy: string[] = [];
  private period = 1000;
  private readonly periods = new Map<string, number>();
  private readonly coverage = new Map<string, Coverage>();
  private readonly awake = new Coverage();
  private stepsBack = 0;
  private lastAt: Instant | undefined;
  private readonly attached = new Set<string>();
  private readonly named = new Set<string>();
  private readonly revisions = new Set<string>();
  private readonly bound = new Set<string>();
  private readonly noted = new Map<string, Head[]>();
  private readonly stamps: StampEntry[] = [];
  private readonly removals: RemovalEntry[] = [];
  private readonly blocks = new BlockCount();
  private verdict: string | undefined;
  private readonly names: Partial<Record<Proof | 'not stated', number>> = {};

  /** Answers with a fault where what the entry says cannot be, though its hash fits. */
  see(envelope: Envelope, times: readonly ScanTime[]): string | undefined {
    if (this.lastAt !== undefined && envelope.at < this.lastAt) this.stepsBack += 1;
    this.lastAt = envelope.at;
    let fault: string | undefined;
    try {
      fault = this.seeBody(envelope);
      this.seeSealed(envelope, times);
    } catch (error) {
      fault = `what it says cannot be understood (${error instanceof Error ? error.message : String(error)})`;
    }
    // Two calls for sealing may be up to a moment more than a minute apart; two minutes are none.
    if (this.openedAt !== undefined && this.closedAt === undefined)
      this.awake.add(envelope.at, 2 * limits.sealAfterMilliseconds);
    return fault;
  }

  seen(): ChainSight {
    return {
      scans: this.scans,
      ...(this.from === undefined || this.to === undefined ? {} : { from: this.from, to: this.to }),
      ...(this.openedAt === undefined ? {} : { openedAt: this.openedAt }),
      ...(this.closedAt === undefined ? {} : { closedAt: this.closedAt }),
      ...(this.source === undefined ? {} : { source: this.source }),
      ...(this.declaredBy.length === 0 ? {} : { declaredBy: this.declaredBy }),
      gaps: [...this.coverage].map(([board, coverage]) => ({ board, gaps: coverage.gaps() })),
      asleep: this.awake.gaps(),
      stepsBack: this.stepsBack,
      attached: this.attached,
      named: this.named,
      revisions: this.revisions,
      bound: this.bound,
      noted: this.noted,
      stamps: this.stamps,
      removals: this.removals,
      names: this.names,
      ...(this.verdict === undefined ? {} : { recordedVerdict: this.verdict }),
    };
  }

  private seeBody(envelope: Envelope): string | undefined {
    if (envelope.class === 'block') {
      if (envelope.kind === 'program') this.seeProgram(envelope.body as { readonly rules?: string });
      const stamp = stampNamedBy(envelope);
      if (stamp !== undefined) this.stamps.push(stamp);
      const removal = removalNamedBy(envelope);
      if (removal !== undefined) return this.seeRemoval(removal);
      if (envelope.kind === 'heads') this.seeHeads(envelope.body as { readonly heads: readonly NotedHead[] });
    } else if (envelope.class === 'conclusion') {
      if (envelope.kind === 'verdict') this.verdict = (envelope.body as { readonly verdict?: string }).verdict;
    } else return this.seeInput(envelope, envelope.body as Act | ImportedAct | ProcedureAct | StationEvent);
    return undefined;
  }

  private seeRemoval(removal: RemovalEntry): string | undefined {
    if (this.closedAt === undefined) return 'it is about readings of a joint that was not closed';
    if (!this.blocks.isThat(removal)) return 'what it says of the blocks before it does not fit them';
    if (removal.kind === this.removals.at(-1)?.kind || (this.removals.length === 0 && !isRemoved(removal)))
      return 'readings cannot go out twice, nor come back before they went';
    this.removals.push(removal);
    return undefined;
  }

  /** Of scans that are not here, the entry that seals them says how many they were and over which time. */
  private seeSealed(envelope: Envelope, times: readonly ScanTime[]): void {
    this.blocks.see(envelope);
    const body = sealedBy(envelope);
    if (body === undefined || times.length > 0) {
      for (const time of times) this.seeScan(time);
      return;
    }
    this.scans += body.count;
    this.widen(body.measuredFrom, body.measuredTo);
  }

  private widen(from: Instant, to: Instant): void {
    if (this.from === undefined || from < this.from) this.from = from;
    if (this.to === undefined || to > this.to) this.to = to;
  }

  private seeScan({ board, measuredAt }: ScanTime): void {
    this.scans += 1;
    this.widen(measuredAt, measuredAt);
    let coverage = this.coverage.get(board);
    if (coverage === undefined) {
      coverage = new Coverage();
      this.coverage.set(board, coverage);
    }
    coverage.add(measuredAt, periodsToGap * (this.periods.get(board) ?? this.period));
  }

  /** The rules are kept as a document; without them the record could not be judged by them any more. */
  private seeProgram({ rules }: { readonly rules?: string }): void {
    if (rules !== undefined) this.attached.add(rules);
  }

  private seeHeads(body: { readonly heads: readonly NotedHead[] }): void {
    for (const { chain, seq, hash } of body.heads) {
      const heads = this.noted.get(chain) ?? [];
      heads.push({ seq, hash });
      this.noted.set(chain, heads);
    }
  }

  private seeInput(envelope: Envelope, body: Act | ImportedAct | ProcedureAct | StationEvent): string | undefined {
    if (envelope.who !== stationName) {
      const how = envelope.proof ?? 'not stated';
      this.names[how] = (this.names[how] ?? 0) + 1;
    }
    switch (body.kind) {
      case 'opened':
        this.openedAt ??= envelope.at;
        this.source = body.source;
        this.period = body.periodMilliseconds;
        return this.seeJoint(body.joint);
      case 'revise':
        return this.seeJoint(body.joint);
      case 'procedure':
        this.revisions.add(body.sha256);
        if (revisionHash(body.revision) !== body.sha256) return 'the hash that it gives is not that of its procedure';
        break;
      case 'source':
        this.source = body.source;
        break;
      case 'period':
        this.periods.set(body.board, body.periodMilliseconds);
        break;
      case 'declare source':
        this.declaredBy.push(envelope.who);
        break;
      case 'attach':
        this.attached.add(body.sha256);
        break;
      case 'note':
        if (body.document !== undefined) this.attached.add(body.document);
        break;
      case 'imported act':
      case 'close':
        if (isClosing(envelope)) this.closedAt = envelope.at;
        break;
      default:
    }
    return undefined;
  }

  /** A joint that carries other values than the revision that it names is told, wherever it came from. */
  private seeJoint(joint: Joint): string | undefined {
    const analyses = [...joint.parts.flatMap((part) => part.analyses), joint.consumable.weldMetal];
    for (const analysis of analyses) if (analysis?.document !== undefined) this.named.add(analysis.document);
    if (joint.boundRevision !== undefined) this.bound.add(joint.boundRevision.sha256);
    return bindingFault(joint);
  }
}

interface NotedHead extends Head {
  readonly chain: string;
}
