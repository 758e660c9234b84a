/**
 * Page one: a difference between recorded and re-judged first of all, then what the joint is, how hot it had
 * to be and why, and the verdict with its open points. While the two verdicts differ, neither is stated as
 * what holds.
 */

import type { Assessment, Finding, Verdict } from '../../judgement/assessment.ts';
import { deviationsOf } from '../../judgement/people/deviations.ts';
import { unitsOf } from '../../measure/units.ts';
import { alarmText } from '../../wording/alarm.ts';
import { cautions } from '../../wording/cautions.ts';
import { findingText } from '../../wording/finding.ts';
import { begun, wholeListText } from '../../wording/list.ts';
import { governedText, minimumText } from '../../wording/requirement.ts';
import { differenceLimitText, limitText } from '../../wording/temperature.ts';
import { scopeText, verdictText } from '../../wording/verdict.ts';
import { alarmStateText, severityText, sourceMark, sourceText, verdictHeadline } from '../../wording/words.ts';
import { decidedText } from '../decided.ts';
import { type DifferenceCause, type ReportFacts, verdictsDiffer } from '../facts.ts';
import { behindText, heatInputText, heatingText, hydrogenText, partText } from '../joint-words.ts';
import { type Block, paragraph, type Section } from '../page-model.ts';
import type { Times } from '../paper.ts';
import { inShort } from './in-short.ts';

export const firstPage = (facts: ReportFacts, times: Times): Section =>
  summary(facts, times, verdictBlocks(facts, times), [
    { kind: 'subheading', text: 'In short' },
    { kind: 'pairs', rows: inShort(facts, times) },
    paragraph(`${cautions[1]} ${times.explained}`, 'small'),
  ]);

/** What every first page has, whatever the verdict rests on. */
export const summary = (
  facts: ReportFacts,
  times: Times,
  verdict: readonly Block[],
  last: readonly Block[],
): Section => ({
  heading: 'Summary',
  blocks: [
    ...sourceBlocks(facts),
    { kind: 'pairs', rows: whatRows(facts, times) },
    ...requirementBlocks(facts),
    ...verdict,
    { kind: 'subheading', text: 'Open points' },
    { kind: 'list', items: openPoints(facts) },
    ...decidedBlocks(facts, times),
    ...last,
  ],
});

const differenceHeadline = 'Recorded verdict and verdict judged again differ';

/** Stands above the title: the first line of page one. */
export const differenceBlocks = (facts: ReportFacts, times: Times): Block[] => {
  if (!verdictsDiffer(facts)) return [];
  const { recordedVerdict: recorded, assessment, differsBecause, rules } = facts;
  return [
    {
      kind: 'frame',
      heavy: true,
      headline: `${differenceHeadline}: nothing is confirmed by this report`,
      lines: [
        recorded === undefined
          ? 'Recorded: no verdict, but findings that are not the same as those of now.'
          : `Recorded ${times.full(recorded.at)} by rules ${recorded.rules}: ${outcomes[recorded.verdict]}.`,
        `Judged again for this report by rules ${rules}: ${outcomes[assessment.verdict]}.`,
        `Cause: ${causeText(differsBecause)}`,
      ],
    },
  ];
};

/** For a report whose two verdicts differ: names an outcome without stating that it holds. */
const outcomes: Readonly<Record<Verdict, string>> = {
  complies: 'limits kept',
  'does-not-comply': 'limits not kept',
  'cannot-be-judged': 'cannot be judged',
};

const causes: Readonly<Record<DifferenceCause['kind'], string>> = {
  'rules version': 'the rules of this program have changed since',
  'calibration entry': 'a calibration was entered later',
  'altered record': 'the record is not what was recorded',
  'late entry': 'something was entered or sent later',
  'not known': 'not known; have the record verified before anyone relies on it',
};

const causeText = (cause: DifferenceCause | undefined): string => {
  const { kind, detail } = cause ?? { kind: 'not known' as const };
  return `${causes[kind]}${detail === undefined ? '' : ` (${detail})`}.`;
};

const whatRows = (facts: ReportFacts, times: Times) => {
  const { joint, station, openedBy, openedAt, closedAt, lastAt } = facts;
  const { procedure } = joint;
  const kept = facts.timeline[0]?.kept;
  return [
    ['Joint', `${joint.title} (${joint.id})`],
    ...(joint.workshop === undefined ? [] : [['Workshop', joint.workshop] as const]),
    ...(joint.drawing === undefined ? [] : [['Drawing', joint.drawing] as const]),
    ['Type', `${joint.jointType}, process ${joint.process} (ISO 4063)`],
    ['Parts', joint.parts.map((part) => partText(part, unitsOf(joint))).join('\n')],
    [
      'Consumable',
      `${joint.consumable.designation ?? 'not named'}, diffusible hydrogen ${hydrogenText(joint)}; heat input ${heatInputText(joint)}`,
    ],
    ['Heating', heatingText(joint)],
    ['Behind', behindText(joint)],
    ['Procedure', procedure === undefined ? 'none bound' : procedureText(procedure)],
    [
      'Recorded',
      kept === undefined
        ? `from ${times.full(openedAt)}, opened by ${openedBy}, at ${station}`
        : `on ${times.full(kept.at)} from files, by ${openedBy}; by their clock from ${times.full(openedAt)}`,
    ],
    [
      'Until',
      closedAt === undefined
        ? `${times.full(lastAt)}; the record is still open`
        : `${times.full(closedAt)}, ${kept === undefined ? 'when it was closed' : 'by their clock, when it was closed'}`,
    ],
  ] as const;
};

const procedureText = ({ id, revision, codeEdition, qualification }: NonNullable<ReportFacts['joint']['procedure']>) =>
  [
    `${id}, revision ${revision}`,
    codeEdition === undefined ? undefined : `written to ${codeEdition}`,
    qualification === undefined ? undefined : `qualified by ${qualification.record} (${qualification.standard})`,
  ]
    .filter((text) => text !== undefined)
    .join(', ');

const sourceBlocks = ({ source }: ReportFacts): Block[] => {
  const mark = sourceMark(source);
  return mark === undefined
    ? [paragraph(`Readings: ${sourceText(source)}`)]
    : [{ kind: 'frame', heavy: false, headline: mark, lines: [beneath(mark, sourceText(source))] }];
};

const requirementBlocks = ({ assessment }: ReportFacts): Block[] => {
  const { requirement, limits } = assessment;
  const { governing, units } = requirement;
  const others = [
    limits.interpassMaximum === undefined
      ? 'no maximum interpass'
      : `maximum interpass ${limitText(limits.interpassMaximum, units)}`,
    ...(limits.maintenanceMinimum === undefined
      ? []
      : [`to be kept in breaks ${limitText(limits.maintenanceMinimum, units)}`]),
    ...(limits.highest === undefined ? [] : [`highest anywhere ${limitText(limits.highest, units)}`]),
    ...(limits.evennessMaximum === undefined
      ? []
      : [`spread of one face at most ${differenceLimitText(limits.evennessMaximum, units)}`]),
  ];
  return [
    { kind: 'subheading', text: 'Requirement' },
    {
      kind: 'figure',
      label: 'Minimum preheat',
      value: minimumText(requirement),
      reason: governedText(governing),
    },
    paragraph(`Also stated: ${others.join('; ')}.`),
  ];
};

const verdictBlocks = (facts: ReportFacts, times: Times): Block[] => {
  const { assessment, recordedVerdict: recorded, closedAt, lastAt } = facts;
  const open =
    closedAt === undefined ? [`The record is still open: this speaks of it up to ${times.full(lastAt)}.`] : [];
  if (verdictsDiffer(facts)) {
    return [
      { kind: 'subheading', text: 'Verdict' },
      {
        kind: 'frame',
        heavy: true,
        headline: 'No verdict holds',
        lines: [
          'See the first lines of this page. What follows is as judged again.',
          scopeText(assessment, wholeListText),
          ...open,
        ],
      },
    ];
  }
  const recordedLine =
    recorded === undefined
      ? 'No verdict was recorded to compare with.'
      : `Judged again for this report; the verdict recorded ${times.full(recorded.at)} is the same.`;
  return [
    { kind: 'subheading', text: 'Verdict' },
    {
      kind: 'frame',
      heavy: true,
      headline: verdictHeadline(assessment.verdict),
      lines: [
        beneath(verdictHeadline(assessment.verdict), verdictText(assessment)),
        scopeText(assessment, wholeListText),
        recordedLine,
        ...open,
      ],
    },
  ];
};

/** A sentence that begins with its own headline need not say it twice. */
const beneath = (headline: string, text: string): string =>
  text.startsWith(`${headline}: `) ? begun(text.slice(headline.length + 2)) : text;

/** What somebody still has to deal with: limits not kept, what was not judged, alarms and questions without an answer. */
const openPoints = ({ assessment }: ReportFacts): string[] => {
  const findings = deviationsOf(assessment.findings)
    .open.toSorted(againstFirst)
    .map((each) => pointOf(each, assessment));
  const alarms = assessment.alarms
    .filter(({ suppressed }) => suppressed === undefined)
    .map((alarm) => `Alarm: ${alarmText(alarm, assessment.requirement.units).what}. ${alarmStateText(alarm.state)}`);
  const answers = assessment.requirement.warnings
    .filter(({ wantsAnswer }) => wantsAnswer)
    .map(({ message }) => `Wants an answer by a named person: ${message}`);
  const all = [...findings, ...alarms, ...answers];
  const shown = all.slice(0, openPointsShown);
  const rest = all.length - shown.length;
  if (rest > 0) shown.push(`and ${rest} more, under "Findings and alarms"`);
  return shown.length === 0 ? ['none'] : shown;
};

/** Settled by a named person, which changes no measurement and no verdict. */
const decidedBlocks = (facts: ReportFacts, times: Times): Block[] => {
  const { assessment } = facts;
  const { accepted, repair, rejected } = deviationsOf(assessment.findings);
  const items = [...accepted, ...repair, ...rejected]
    .toSorted(againstFirst)
    .map((each) => `${pointOf(each, assessment)}. ${decidedText(each, facts, times)}`);
  const rest = items.length - decidedShown;
  const shown = [
    ...items.slice(0, decidedShown),
    ...(rest > 0 ? [`and ${rest} more, under "Deviations and named answers"`] : []),
  ];
  return items.length === 0
    ? []
    : [
        { kind: 'subheading', text: 'Points that were decided on' },
        { kind: 'list', items: shown },
      ];
};

const pointOf = (finding: Finding, { requirement }: Assessment): string => {
  const { what } = findingText(finding, requirement.units);
  const weight = severityText(finding.severity);
  return what.includes(weight.toLowerCase()) ? what : `${weight}: ${what}`;
};

const againstFirst = (a: Finding, b: Finding): number =>
  Number(b.severity === 'nonconformity') - Number(a.severity === 'nonconformity') || a.from - b.from;

/** Page one stays one page. */
const openPointsShown = 8;
const decidedShown = 4;
