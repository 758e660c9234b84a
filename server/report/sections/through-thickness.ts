/**
 * Heat through the thickness: what the procedure asks for and which soak rule came last, then of each part how it was
 * computed, how it stood at the end, what of it is not known, and a picture of its course. What is not judged says
 * why, and what would mend it.
 */
import type { Assessment } from '../../judgement/assessment.ts';
import type { SectionStatus } from '../../judgement/inside/section-status.ts';
import { milliseconds } from '../../measure/quantity.ts';
import type { UnitSystem } from '../../measure/units.ts';
import type { Part } from '../../weld/part.ts';
import { governingSoakText } from '../../wording/governing-soak.ts';
import { coldestText, notJudgedText, throughAfterText, throughText } from '../../wording/section.ts';
import {
  depthNames,
  doubtText,
  driversText,
  farFaceText,
  lossText,
  shapeText,
  sidewaysText,
  startText,
  steelText,
} from '../../wording/section-basis.ts';
import { throughAskedText } from '../../wording/soak.ts';
import { boundedText } from '../../wording/temperature.ts';
import { durationText } from '../../wording/time.ts';
import { chartPicture } from '../chart/chart-picture.ts';
import { sectionChart } from '../chart/section-chart.ts';
import type { ReportFacts } from '../facts.ts';
import { type Block, paragraph, type Section } from '../page-model.ts';
import type { Times } from '../paper.ts';

type Row = readonly [label: string, value: string];

export const throughThicknessSection = (facts: ReportFacts, times: Times): Section => ({
  heading: 'Heat through the thickness',
  blocks: [
    { kind: 'pairs', rows: wholeRows(facts, times) },
    paragraph(caution, 'small'),
    ...facts.assessment.sections.flatMap((section) => partBlocks(facts, section, times)),
  ],
});

const caution =
  'Computed from the probes for heat that goes straight through, away from the groove, the edge of the heater and the ends of the part; what runs sideways out of the heated band is reckoned with. The lowest of what is possible is judged. This informs; what the qualified procedure and the governing code ask for comes first.';

const wholeRows = ({ assessment }: ReportFacts, times: Times): Row[] => {
  const { throughThickness: through, after } = assessment;
  const { asked, required, since, doneAt, firstDoneAt, worst, state } = through;
  const governed = governingSoakText(assessment);
  return [
    ['Asked for', asked ? `by the procedure: ${throughAskedText(required)}` : 'not by the procedure; shown only'],
    [endName(assessment), after === undefined ? throughText(through) : throughAfterText(through, times.when)],
    ...(since === undefined ? [] : [['Counted from', times.full(since)] as const]),
    ...(doneAt === undefined ? [] : [['Done at', times.full(doneAt)] as const]),
    ...(firstDoneAt === undefined || firstDoneAt === doneAt
      ? []
      : [['First done at', times.full(firstDoneAt)] as const]),
    ...(worst === undefined || state === 'done' || after !== undefined ? [] : [['Held up by', worst] as const]),
    ...(governed === undefined ? [] : [['Which soak rule came last', governed] as const]),
  ];
};

/** Once the arc is out the part may cool: how it stands then says nothing of the welding. */
const endName = ({ after, at }: Assessment): string =>
  after === undefined
    ? 'At the end'
    : `At the end, ${durationText(milliseconds(at - after.completedAt))} after welding`;

const partBlocks = (facts: ReportFacts, section: SectionStatus, times: Times): Block[] => {
  const part = facts.joint.parts.find(({ id }) => id === section.part);
  if (part === undefined) return [];
  const rows = [...standingRows(facts, section, part, times), ...basisRows(facts, section, part, times)];
  return [{ kind: 'subheading', text: section.part }, { kind: 'pairs', rows }, ...picture(facts, section, part, times)];
};

const standingRows = ({ assessment }: ReportFacts, section: SectionStatus, { form }: Part, times: Times): Row[] => {
  const { coldest, farFace, doubted, at, state } = section;
  const { units } = assessment.requirement;
  const notJudged = notJudgedText(section, assessment);
  const minimum = { limit: assessment.limits.preheatMinimum };
  const standing = {
    met: 'warm through',
    'not met': assessment.after === undefined ? 'not warm through' : 'cooled below the minimum',
    'not judged': 'not judged: no minimum is stated',
  };
  return [
    [endName(assessment), notJudged === undefined ? standing[state] : `not judged: ${notJudged}`],
    ...(coldest === undefined || at === undefined
      ? []
      : [[`Coldest point, ${times.when(at)}`, coldestText(coldest, assessment)] as const]),
    ...(farFace === undefined ? [] : [[farName(form), boundedText(farFace, units, minimum)] as const]),
    ...(doubted === undefined
      ? []
      : [['Doubt', `since ${times.when(doubted.since)} ${doubtText(doubted, units)}`] as const]),
  ];
};

const farName = (form: Part['form']): string => (form === 'bar' ? 'Axis then' : 'Far face then');

/** How it was computed, and what was not known. */
const basisRows = ({ assessment }: ReportFacts, section: SectionStatus, part: Part, times: Times): Row[] => {
  const { steel, startLeft, gap, lossFound, frontProbes, leavesSideways } = section;
  const units: UnitSystem = assessment.requirement.units;
  const isBar = part.form === 'bar';
  return [
    ['Computed through', shapeText(part, section, units)],
    ...(frontProbes.length === 0 && section.backProbes.length === 0
      ? []
      : [['Driven by', driversText(section)] as const]),
    ...(steel === undefined ? [] : [['Conducts as', steelText(steel)] as const]),
    ...(isBar ? [] : [['Far side', farFaceText(section)] as const]),
    ...(leavesSideways === undefined ? [] : [['Heat sideways', sidewaysText(leavesSideways, units)] as const]),
    ...(startLeft === undefined ? [] : [['Start', startText(startLeft, units)] as const]),
    ...(gap === undefined
      ? []
      : [
          [
            'Gap',
            `${times.span(gap.from, gap.to)} without readings; what the face did meanwhile is bounded, not known`,
          ] as const,
        ]),
    ...(lossFound === undefined ? [] : [['Loss of the far face', lossText(lossFound, units)] as const]),
  ];
};

const picture = (facts: ReportFacts, { part }: SectionStatus, { form }: Part, times: Times): Block[] => {
  const course = facts.courses.find((each) => each.part === part);
  const model = course === undefined ? undefined : sectionChart(facts, course, form);
  if (model === undefined) return [];
  const [front, middle, back] = depthNames(form);
  return [
    chartPicture(model, facts, times, {
      height: pictureHeight,
      more: `: likely temperature of ${front}, ${middle} and ${back}, and the lowest that is possible of the coldest point. A line is broken where nothing was computed.`,
    }),
  ];
};

/** Two parts with their rows fill a page. */
const pictureHeight = 190;
