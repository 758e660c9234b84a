/**
 * Facts to pages: which sections a report has and in which order. Pure; what it says can be read as text
 * (page-model.ts). A new section is one file and one line here.
 */
import { sourceMark } from '../wording/words.ts';
import { type ReportFacts, verdictsDiffer } from './facts.ts';
import type { PageModel, Section } from './page-model.ts';
import { type Times, timesOf } from './paper.ts';
import { afterWeldingSection } from './sections/after-welding.ts';
import { awayBlocks, awayPage, awaySection } from './sections/away.ts';
import { breaksSection } from './sections/breaks.ts';
import { checksSection } from './sections/checks.ts';
import { cautionsSection, deviationsSection, documentsSection, methodSection } from './sections/closing.ts';
import { courseSection } from './sections/course.ts';
import { eventsSection } from './sections/events.ts';
import { findingsSection } from './sections/findings.ts';
import { differenceBlocks, firstPage } from './sections/first-page.ts';
import { handReadingsSection } from './sections/hand-readings.ts';
import { identitySection } from './sections/identity.ts';
import { importedSection } from './sections/imported.ts';
import { notGivenSection } from './sections/not-given.ts';
import { passesSection } from './sections/passes.ts';
import { signaturesSection } from './sections/people.ts';
import { probesSection } from './sections/probes.ts';
import { procedureSection } from './sections/procedure.ts';
import { repairSection } from './sections/repair.ts';
import { requirementSection } from './sections/requirement.ts';
import { soakSection } from './sections/soak.ts';
import { throughThicknessSection } from './sections/through-thickness.ts';

/** On paper there are no bookmarks. */
const contentsSection: Section = { heading: 'Contents', newPage: true, blocks: [{ kind: 'contents' }] };

export function pages(facts: ReportFacts): PageModel {
  const times = timesOf(facts);
  const { joint, source, head } = facts;
  const mark = sourceMark(source);
  return {
    title: `Preheat report: ${joint.title}`,
    language: 'en',
    description: `Preheat record of joint ${joint.id}, entries up to ${head.seq}`,
    author: [joint.workshop, `station ${facts.station}`].filter((text) => text !== undefined).join(', '),
    keywords: [
      `joint ${joint.id}`,
      ...(joint.procedure === undefined
        ? []
        : [`procedure ${joint.procedure.id} revision ${joint.procedure.revision}`]),
      ...(head.hash === '' ? [] : [`head ${head.hash}`]),
      ...(mark === undefined ? [] : [mark]),
    ],
    head: {
      left: `Preheat report, joint ${joint.id}`,
      marks: [
        ...(mark === undefined ? [] : [mark.toUpperCase()]),
        ...(verdictsDiffer(facts) ? ['VERDICTS DIFFER'] : []),
        ...(facts.readingsRemoved === undefined ? [] : ['READINGS REMOVED']),
        ...(facts.closedAt === undefined ? ['STILL OPEN'] : []),
        ...(facts.repairs?.some(({ state }) => state === 'open') === true ? ['REPAIR OPEN'] : []),
      ],
    },
    // An imported log has no chain, so no head to name.
    foot:
      head.hash === '' ? `Joint ${joint.id}` : `Record ${joint.id}, entry ${head.seq}, head ${head.hash.slice(0, 16)}`,
    datedAt: facts.lastAt,
    above: [...differenceBlocks(facts, times), ...awayBlocks(facts)],
    sections: sectionsOf(facts, times),
  };
}

/** Where the readings are in a package, every entry stands, and what was concluded; nothing that readings alone could tell. */
const sectionsOf = (facts: ReportFacts, times: Times): Section[] => {
  const away = facts.readingsRemoved !== undefined;
  return [
    away ? awayPage(facts, times) : firstPage(facts, times),
    contentsSection,
    ...repairSection(facts),
    requirementSection(facts),
    ...procedureSection(facts, times),
    ...(away ? [awaySection(facts)] : fromReadings(facts, times)),
    findingsSection(facts, times),
    ...importedSection(facts, times),
    eventsSection(facts, times),
    documentsSection(facts, times),
    deviationsSection(facts, times),
    ...(away ? [] : [notGivenSection(facts)]),
    signaturesSection(facts, times),
    ...(away ? [] : [methodSection(facts)]),
    cautionsSection(),
    identitySection(facts),
  ];
};

const fromReadings = (facts: ReportFacts, times: Times): Section[] => [
  probesSection(facts, times),
  ...checksSection(facts, times),
  courseSection(facts, times),
  handReadingsSection(facts, times),
  soakSection(facts, times),
  throughThicknessSection(facts, times),
  passesSection(facts, times),
  ...breaksSection(facts, times),
  ...afterWeldingSection(facts, times),
];
