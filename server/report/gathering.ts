/** What a report is gathered from, and what the entries alone say of it: the same with readings and without. */

import type { Course } from '../ledger/courses-read.ts';
import type { Removed } from '../ledger/removal-entry.ts';
import type { Instant } from '../measure/quantity.ts';
import type { SeenStamp } from '../proof/stamps.ts';
import type { SignedHead } from '../record/head.ts';
import type { Repair } from '../record/repairs.ts';
import type { Input, StationEvent } from '../weld/entry.ts';
import type { KeptDocument, RecordedConclusion, RecordedVerdict, ReportFacts, TimelineEntry } from './facts.ts';

export interface Gathering {
  readonly program: { readonly name: string; readonly version: string };
  /** Identity of the rules that judge now. */
  readonly rules: string;
  /** IANA name of the zone that local times are printed in. */
  readonly zone: string;
  readonly inputs: () => Iterable<Input>;
  /** Temperatures of all scans that overlap the span, where they can be had without making each scan again. */
  readonly courses?: (from: Instant, to: Instant) => Iterable<Course>;
  readonly timeline: readonly TimelineEntry[];
  readonly conclusions: readonly RecordedConclusion[];
  readonly head: SignedHead;
  readonly document: (sha256: string) => boolean;
  readonly repairs?: readonly Repair[];
  readonly stamps?: readonly SeenStamp[];
  /** The readings are in a package. */
  readonly removed?: Removed;
}

/** What the entries say of the job's span. Of the readings, which are many, only the first and the newest are asked for elsewhere. */
export function openingOf(timeline: readonly TimelineEntry[]) {
  let found: { readonly opened: StationEvent & { kind: 'opened' }; readonly openedAt: Instant } | undefined;
  let joint: ReportFacts['joint'] | undefined;
  let closedAt: Instant | undefined;
  for (const { input } of timeline) {
    if (input.type === 'station' && input.event.kind === 'opened') {
      found = { opened: input.event, openedAt: input.at };
      joint = input.event.joint;
    } else if (input.type === 'act' && input.act.kind === 'revise') joint = input.act.joint;
    else if (input.type === 'act' && input.act.kind === 'close') closedAt = input.at;
  }
  if (found === undefined || joint === undefined)
    throw new Error('the record has no opening entry, so no report can be made of it');
  return { ...found, closedAt, joint };
}

export function verdictOf(conclusions: readonly RecordedConclusion[], rules: string): RecordedVerdict | undefined {
  const found = conclusions.findLast((each) => each.conclusion.kind === 'verdict');
  return found?.conclusion.kind === 'verdict' ? { verdict: found.conclusion.verdict, at: found.at, rules } : undefined;
}

export function documentsOf({ timeline, document }: Gathering): KeptDocument[] {
  return timeline.flatMap(({ input }): KeptDocument[] => {
    if (input.type !== 'act' || input.act.kind !== 'attach') return [];
    const { title, mediaType, bytes, sha256 } = input.act;
    return [{ title, mediaType, bytes, sha256, at: input.at, who: input.who, present: document(sha256) }];
  });
}
