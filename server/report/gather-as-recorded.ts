/** The facts of a report on a joint whose readings are in a package: what was recorded, with nothing judged again and nothing drawn. */

import type { Removed } from '../ledger/removal-entry.ts';
import type { Instant } from '../measure/quantity.ts';
import { asRecorded } from '../past/as-recorded.ts';
import type { ReportFacts } from './facts.ts';
import { documentsOf, type Gathering, openingOf, verdictOf } from './gathering.ts';

export function gatherAsRecorded(from: Gathering, removed: Removed): ReportFacts {
  const { opened, openedAt, closedAt, joint } = openingOf(from.timeline);
  const inputs = from.timeline.map(({ input }) => input);
  const assessment = asRecorded(
    inputs,
    from.conclusions.map(({ conclusion }) => conclusion),
  );
  const recordedVerdict = verdictOf(from.conclusions, opened.rules);
  return {
    ...{ joint, assessment, courses: [], handReadings: [], differs: false, readingsRemoved: removed },
    ...(recordedVerdict === undefined ? {} : { recordedVerdict }),
    recordedConclusions: from.conclusions,
    source: assessment.source,
    ...(from.repairs === undefined ? {} : { repairs: from.repairs }),
    stamps: from.stamps ?? [],
    ...{ program: from.program, rules: from.rules, station: opened.station, openedBy: opened.openedBy },
    ...{ head: from.head, entries: from.head.seq, openedAt },
    ...(closedAt === undefined ? {} : { closedAt }),
    // The removal is the newest that it speaks of.
    lastAt: Math.max(assessment.at, removed.at) as Instant,
    zone: from.zone,
    periodMilliseconds: opened.periodMilliseconds,
    timeline: from.timeline,
    history: { from: openedAt, to: openedAt, stepMilliseconds: 1, series: [] },
    documents: documentsOf(from),
  };
}
