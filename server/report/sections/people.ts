/**
 * Who entered what stands in the record, by name, role and how the station came to the name; and the lines on which they sign
 * on paper, each with what the signature says. A name that the record knows stands on its line already.
 */
import { instant } from '../../measure/quantity.ts';
import type { Role } from '../../weld/person.ts';
import { wholeListText } from '../../wording/list.ts';
import { proofText } from '../../wording/signed.ts';
import type { ReportFacts } from '../facts.ts';
import { type Block, paragraph, type Section } from '../page-model.ts';
import type { Times } from '../paper.ts';
import { groupedBy } from '../papers/grouped-by.ts';
import { whoOf } from './events.ts';

export const signaturesSection = (facts: ReportFacts, times: Times): Section => ({
  heading: 'Signatures',
  blocks: [
    peopleTable(facts, times),
    // Before them: behind the last line it would stand alone on the next page.
    paragraph('A signature covers the record named under "Identity of the record" and no later one.', 'small'),
    { kind: 'signatures', lines: lines(facts) },
  ],
});

const actsOf = ({ timeline }: ReportFacts) =>
  timeline.flatMap(({ input, kept }) =>
    input.type === 'act' ? [{ ...input, proof: (kept?.by ?? input).proof, told: whoOf(input, kept) }] : [],
  );

const peopleTable = (facts: ReportFacts, times: Times): Block => ({
  kind: 'table',
  caption: 'Who made the entries',
  columns: [
    { heading: 'Who', share: 8 },
    { heading: 'Name established', share: 8 },
    { heading: 'Entries', share: 2, align: 'right' },
    { heading: 'Entered', share: 8 },
  ],
  rows: groupedBy(actsOf(facts), ({ told }) => told).map(([name, ...acts]) => [
    name,
    wholeListText([...new Set(acts.map(({ proof }) => proofText(proof) ?? 'not recorded'))]),
    `${acts.length}`,
    times.span(
      instant(acts.reduce((first, { at }) => Math.min(first, at), Number.POSITIVE_INFINITY)),
      instant(acts.reduce((last, { at }) => Math.max(last, at), 0)),
    ),
  ]),
  empty: 'Nobody has entered anything.',
});

interface Line {
  readonly role: string;
  readonly meaning: string;
  readonly name?: string;
}

const meanings = {
  welder: ['Welder', 'I welded the passes that stand under my name, as listed.'],
  'heater operator': ['Heater operator', 'I heated as listed and entered heat on and off as it happened.'],
  inspector: ['Inspector', 'I have read this report with its open points and compared it with the work.'],
  coordinator: ['Coordinator', 'I have decided on each deviation and open point as written above.'],
  'third party': [
    'Third party',
    'I have seen this report with its open points; it replaces no examination of the weld.',
  ],
} as const satisfies Partial<Record<Role, readonly [string, string]>>;

/** One for each person that the record knows in the role, and one at least; a third party's where one took part. */
const lines = (facts: ReportFacts): Line[] =>
  (Object.keys(meanings) as (keyof typeof meanings)[]).flatMap((role) => {
    const [title, meaning] = meanings[role];
    const names = namesIn(role, facts);
    if (names.length === 0) return role === 'third party' ? [] : [{ role: title, meaning }];
    return names.map((name) => ({ role: title, meaning, name }));
  });

const namesIn = (role: Role, facts: ReportFacts): string[] => {
  const entered = actsOf(facts)
    .filter((act) => act.role === role)
    .map(({ who }) => who);
  // Whoever welded signs as the welder, whoever entered it.
  const welded = role === 'welder' ? facts.assessment.passes.map(({ welder }) => welder) : [];
  return [...new Set(role === 'welder' && welded.length > 0 ? welded : entered)];
};
