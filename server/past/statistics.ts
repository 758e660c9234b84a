/**
 * Counts over the joints of a record, out of their cards. What was measured, simulated, imported and so on is counted apart and never
 * added up. Each figure stands with how many it is made of, and with what had to be left out.
 */
import type { Verdict } from '../judgement/assessment.ts';
import { type SourceKind, sourceKinds } from '../weld/entry.ts';
import type { Card } from './card.ts';
import { countFindings, type FindingCount } from './count-findings.ts';
import { countInterpass, type InterpassCount } from './count-interpass.ts';
import { countProbes, type ProbeCount } from './count-probes.ts';
import { countWelders, type WelderCount } from './count-welders.ts';
import { type PeriodKind, periodOf } from './period.ts';
import { type Share, shareOf } from './share.ts';
import { type Spread, spreadOf } from './spread.ts';

export type VerdictCount = { readonly [verdict in Verdict]: number } & { readonly n: number };

export interface Row extends VerdictCount {
  readonly name: string;
}

export interface Trend extends Row {
  readonly interpass: InterpassCount;
  readonly heatToArc: Spread;
}

export interface SourceStatistics {
  readonly source: SourceKind;
  readonly joints: number;
  readonly open: number;
  /** Joints that hold entries of a newer program; counted as far as they could be read. */
  readonly notRead: number;
  /** Of closed joints: verdicts are counted once they are recorded. */
  readonly verdicts: VerdictCount;
  readonly byProcedure: readonly Row[];
  /** A joint of two steels or heats counts under each. */
  readonly bySteel: readonly Row[];
  readonly byHeat: readonly Row[];
  readonly byPeriod: readonly Trend[];
  readonly welders: readonly WelderCount[];
  readonly findings: readonly FindingCount[];
  /** From heat on to the first arc, milliseconds; joints without one of the two, or the other way round, are left out. */
  readonly heatToArc: Spread & { readonly leftOut: number };
  /** Joints that fell back before their first arc, of those that were heated; and how often in all. */
  readonly holdLost: Share & { readonly times: number };
  readonly interpass: InterpassCount;
  readonly probes: readonly ProbeCount[];
  /** Joints with a declared break, of those with a pass; and how many breaks. */
  readonly breaks: Share & { readonly times: number };
}

export interface Statistics {
  readonly period: PeriodKind;
  readonly joints: number;
  /** In the order of `sourceKinds`, only those that there are. */
  readonly sources: readonly SourceStatistics[];
}

export function statisticsOf(cards: readonly Card[], period: PeriodKind, zone: string): Statistics {
  return {
    period,
    joints: cards.length,
    sources: sourceKinds.flatMap((source) => {
      const of = cards.filter((card) => card.source.kind === source);
      return of.length === 0 ? [] : [ofSource(source, of, period, zone)];
    }),
  };
}

function ofSource(source: SourceKind, cards: readonly Card[], period: PeriodKind, zone: string): SourceStatistics {
  const closed = cards.filter(({ open }) => !open);
  const times = heatToArc(cards);
  const heated = cards.filter(({ firstHeatAt }) => firstHeatAt !== undefined);
  const welded = cards.filter(({ passes }) => passes.length > 0);
  return {
    source,
    joints: cards.length,
    open: cards.length - closed.length,
    notRead: cards.filter(({ notRead }) => notRead !== undefined).length,
    verdicts: verdictsOf(closed),
    byProcedure: rows(closed, ({ procedure }) => [
      procedure === undefined ? 'no procedure' : `${procedure.id} revision ${procedure.revision}`,
    ]),
    bySteel: rows(closed, ({ grades }) => (grades.length === 0 ? ['not stated'] : grades)),
    byHeat: rows(closed, ({ heats }) => (heats.length === 0 ? ['not stated'] : heats)),
    byPeriod: grouped(closed, ({ closedAt }) => [periodOf(closedAt!, period, zone)]).map(([name, of]) => ({
      name,
      ...verdictsOf(of),
      interpass: countInterpass(of),
      heatToArc: spreadOf(heatToArc(of)),
    })),
    welders: countWelders(cards),
    findings: countFindings(cards),
    heatToArc: { ...spreadOf(times), leftOut: cards.length - times.length },
    holdLost: {
      ...shareOf(heated.filter(({ holdsLost }) => holdsLost > 0).length, heated.length),
      times: sum(heated.map(({ holdsLost }) => holdsLost)),
    },
    interpass: countInterpass(cards),
    probes: countProbes(cards),
    breaks: {
      ...shareOf(welded.filter(({ breaks }) => breaks > 0).length, welded.length),
      times: sum(welded.map(({ breaks }) => breaks)),
    },
  };
}

const heatToArc = (cards: readonly Card[]): number[] =>
  cards.flatMap(({ firstHeatAt: heat, firstArcAt: arc }) =>
    heat === undefined || arc === undefined || arc < heat ? [] : [arc - heat],
  );

const verdictsOf = (cards: readonly Card[]): VerdictCount => {
  const count = (verdict: Verdict): number => cards.filter((card) => card.verdict === verdict).length;
  return {
    complies: count('complies'),
    'does-not-comply': count('does-not-comply'),
    'cannot-be-judged': count('cannot-be-judged'),
    n: cards.length,
  };
};

const rows = (cards: readonly Card[], names: (card: Card) => readonly string[]): Row[] =>
  grouped(cards, names).map(([name, of]) => ({ name, ...verdictsOf(of) }));

/** In the order of their names. */
function grouped(cards: readonly Card[], names: (card: Card) => readonly string[]): [string, Card[]][] {
  const groups = new Map<string, Card[]>();
  for (const card of cards) {
    for (const name of names(card)) {
      const group = groups.get(name);
      if (group === undefined) groups.set(name, [card]);
      else group.push(card);
    }
  }
  return [...groups].sort(([a], [b]) => a.localeCompare(b, 'en', { numeric: true }));
}

const sum = (numbers: readonly number[]): number => numbers.reduce((total, each) => total + each, 0);
