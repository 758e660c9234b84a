/** What stands behind the report and who answers for it: documents, deviations, signatures, method and rules, cautions. */
import type { Finding } from '../../judgement/assessment.ts';
import { needsAnswer } from '../../judgement/people/deviations.ts';
import { millikelvin } from '../../measure/quantity.ts';
import { cautions } from '../../wording/cautions.ts';
import { findingText } from '../../wording/finding.ts';
import { decisionRuleText } from '../../wording/instrument.ts';
import { noInterlock } from '../../wording/signal.ts';
import { signedText } from '../../wording/signed.ts';
import { differenceLimitText } from '../../wording/temperature.ts';
import { durationText } from '../../wording/time.ts';
import { decidedText } from '../decided.ts';
import { folded } from '../event-words.ts';
import type { ReportFacts } from '../facts.ts';
import type { Section } from '../page-model.ts';
import type { Times } from '../paper.ts';

export const documentsSection = ({ documents }: ReportFacts, times: Times): Section => ({
  heading: 'Documents',
  blocks: [
    {
      kind: 'table',
      caption: 'Documents kept with the record',
      columns: [
        { heading: 'Title', share: 6 },
        { heading: 'Kind and size', share: 4 },
        { heading: 'Attached', share: 5 },
        { heading: 'SHA-256 of its bytes', share: 9, mono: true },
      ],
      rows: documents.map(({ title, mediaType, bytes, sha256, at, who, present }) => [
        present ? title : `${title} (MISSING OR ALTERED: its bytes do not have this hash)`,
        `${mediaType}, ${sizeText(bytes)}`,
        `${times.when(at)} by ${who}`,
        sha256,
      ]),
      empty: 'No document was attached.',
    },
  ],
});

const sizeText = (bytes: number): string =>
  bytes < 1000
    ? `${bytes} bytes`
    : bytes < 1_000_000
      ? `${Math.round(bytes / 1000)} kB`
      : `${(bytes / 1_000_000).toFixed(1)} MB`;

/** Every limit not kept or not judged with what was decided, or room for it, and every answer that a named person gave. */
export const deviationsSection = (facts: ReportFacts, times: Times): Section => {
  const { assessment, timeline } = facts;
  const deviations = assessment.findings.filter(needsAnswer);
  return {
    heading: 'Deviations and named answers',
    blocks: [
      {
        kind: 'table',
        caption: 'Deviations',
        columns: [
          { heading: 'Deviation', share: 9 },
          { heading: 'Held', share: 6 },
          { heading: 'What was decided, by whom, when', share: 10 },
        ],
        rows: deviations.map((finding) => [
          findingText(finding, assessment.requirement.units).what,
          times.span(finding.from, finding.to),
          decision(finding, facts, times),
        ]),
        empty: 'No deviation was found.',
      },
      {
        kind: 'table',
        caption: 'Answers by named persons',
        columns: [
          { heading: 'When', share: 4 },
          { heading: 'Who', share: 5 },
          { heading: 'Answer', share: 6 },
          { heading: 'Reason', share: 10 },
        ],
        rows: timeline.flatMap(({ input }) => {
          if (input.type !== 'act') return [];
          const who = signedText(input);
          const { act } = input;
          if (act.kind === 'accept') {
            const subject = act.method === undefined ? act.subject : `${act.subject}, ${act.method}`;
            return [[times.when(input.at), who, `accepted: ${subject}`, folded(act.reason)]];
          }
          if (act.kind === 'revise') return [[times.when(input.at), who, 'revised the joint', folded(act.reason)]];
          if (act.kind === 'declare source')
            return [[times.when(input.at), who, 'declared the source', folded(act.statement)]];
          return [];
        }),
        empty: 'No answer was asked for and given.',
      },
    ],
  };
};

/** What stands in the record; without it room for what is written by hand. */
const decision = (finding: Finding, facts: ReportFacts, times: Times): string =>
  finding.disposition === undefined
    ? 'OPEN\n\n'
    : `${decidedText(finding, facts, times)}. Reason: ${folded(finding.disposition.reason)}`;

export const methodSection = (facts: ReportFacts): Section => {
  const { program, rules, joint, periodMilliseconds, recordedVerdict, assessment } = facts;
  const rows: [string, string][] = [
    ['Decision rule', decisionRuleText(joint.procedure)],
    ['Side that passes', 'at or above a minimum; at or below a maximum'],
    [
      'Minimum',
      joint.procedure?.zonePlacesRequired === undefined
        ? 'every zone and opposite-face place; the coldest governs'
        : `${joint.procedure.zonePlacesRequired} of the zone places, as the procedure says, and every opposite-face place`,
    ],
    ['Not judged', 'a required place without a trusted, fresh reading; it never counts as kept'],
    [
      'Readings',
      `one of each probe every ${durationText(periodMilliseconds as Parameters<typeof durationText>[0])} expected; the raw values stand in the record`,
    ],
    [
      'Rounding',
      `whole degrees; one decimal within ${differenceLimitText(millikelvin(1), assessment.requirement.units)} of a limit, never rounded across it`,
    ],
    ['Judged by', `${program.name} ${program.version}, rules ${rules}`],
    ['Recorded by rules', recordedVerdict?.rules ?? 'no verdict recorded'],
  ];
  return { heading: 'Method and rules', blocks: [{ kind: 'pairs', rows }] };
};

export const cautionsSection = (): Section => ({
  heading: 'Cautions',
  blocks: [{ kind: 'list', items: [...cautions, noInterlock] }],
});
