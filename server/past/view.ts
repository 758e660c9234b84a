/** What is told of a joint that was found. */
import type { Verdict } from '../judgement/assessment.ts';
import { type DeviationCounts, deviationCounts } from '../judgement/people/deviations.ts';
import type { Instant } from '../measure/quantity.ts';
import type { SourceKind } from '../weld/entry.ts';
import type { Card, CardFinding } from './card.ts';
import type { WordField } from './card-words.ts';
import { type Asked, type Found, placesOf } from './search.ts';

export interface FoundJoint {
  readonly id: string;
  readonly title: string;
  readonly open: boolean;
  readonly verdict: Verdict;
  readonly source: SourceKind;
  readonly openedAt: Instant;
  readonly closedAt?: Instant;
  readonly lastAt: Instant;
  readonly procedure?: { readonly id: string; readonly revision: string };
  readonly repairOf?: string;
  readonly welders: readonly string[];
  readonly passes: number;
  /** Against the verdict, and what kept it open; each once. */
  readonly findings: readonly CardFinding['kind'][];
  readonly deviations: DeviationCounts;
  /** Where the words stand. */
  readonly places: readonly { readonly field: WordField; readonly text: string }[];
  readonly notRead?: string;
  /** In a package and not in the record. */
  readonly readingsRemoved?: true;
}

export interface FoundView {
  readonly found: number;
  readonly searched: number;
  /** Newest first, from the place that was asked for. */
  readonly joints: readonly FoundJoint[];
}

/** `isAway`: whether the readings of a joint are in a package; asked of those that are told only. */
export const foundView = (
  { cards, searched }: Found,
  asked: Asked,
  from: number,
  count: number,
  isAway: (joint: string) => boolean = () => false,
): FoundView => ({
  found: cards.length,
  searched,
  joints: cards.slice(from, from + count).map((card) => ({
    ...foundJoint(card, asked),
    ...(isAway(card.chain) ? { readingsRemoved: true as const } : {}),
  })),
});

function foundJoint(card: Card, asked: Asked): FoundJoint {
  const { chain, title, open, verdict, source, openedAt, closedAt, lastAt, procedure, repairOf, notRead } = card;
  return {
    id: chain,
    ...{ title, open, verdict, source: source.kind, openedAt, lastAt },
    ...(closedAt === undefined ? {} : { closedAt }),
    ...(procedure === undefined ? {} : { procedure }),
    ...(repairOf === undefined ? {} : { repairOf }),
    welders: card.people.filter(({ roles }) => roles.includes('welder')).map(({ name }) => name),
    passes: card.passes.length,
    deviations: deviationCounts(
      card.findings.map(({ severity, decision }) => ({
        severity,
        ...(decision === undefined ? {} : { disposition: { decision } }),
      })),
    ),
    findings: [...new Set(card.findings.filter(({ severity }) => severity !== 'remark').map(({ kind }) => kind))],
    places: placesOf(card, asked),
    ...(notRead === undefined ? {} : { notRead }),
  };
}
