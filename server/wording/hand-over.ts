/** A joint handed over: where it stands, what is open, how long it may stand so, what comes next. From the judge's own words. */
import { isRinging } from '../judgement/alarm-rules.ts';
import type { Assessment } from '../judgement/assessment.ts';
import type { Outlook } from '../judgement/inside/section-status.ts';
import { deviationsOf } from '../judgement/people/deviations.ts';
import type { HandOverAct } from '../weld/hand-over.ts';
import { stillOpenText } from './after-open.ts';
import { aheadText } from './ahead.ts';
import { alarmText } from './alarm.ts';
import { conditionText } from './condition.ts';
import { findingText } from './finding.ts';
import { begun } from './list.ts';
import { readinessSentence, unmetConditions } from './readiness.ts';
import { proofText } from './signed.ts';
import { limitText } from './temperature.ts';
import { aboutText } from './time.ts';
import { verdictText } from './verdict.ts';
import { phaseText } from './words.ts';

export interface HandOverWords {
  readonly stands: readonly string[];
  readonly open: readonly string[];
  readonly howLong: readonly string[];
  readonly next: readonly string[];
}

export const handOverText = (assessment: Assessment, outlook?: Outlook): HandOverWords => {
  const { now, next, when } = aheadText(assessment);
  const comes = assessment.ahead.when?.what === 'comes' ? when : undefined;
  return {
    stands: [
      standsText(phaseText(assessment.phase), readinessSentence(assessment, outlook)),
      ...running(assessment),
      verdictText(assessment),
    ],
    open: openText(assessment),
    howLong: howLongText(assessment, outlook),
    next: [
      ...now.map(begun),
      ...(next === undefined ? [] : [`Then ${next}${comes === undefined ? '' : `, ${comes}`}`]),
    ],
  };
};

/** "R. Teld handed over to Odd Varen (signed on with a PIN)". Whose entry it is stands beside it. */
export const handOverActText = ({ to, toProof, note }: HandOverAct): string => {
  const proof = proofText(toProof);
  const said = note === undefined ? '' : `. ${note}`;
  return `Handed over to ${to}${proof === undefined ? '' : ` (${proof})`}${said}`;
};

/** The phase is not said twice where the sentence begins with it. */
const standsText = (phase: string, sentence: string): string => {
  const whole = sentence.endsWith('.') ? sentence : `${sentence}.`;
  return whole.startsWith(phase) ? whole : `${phase}. ${whole}`;
};

const running = ({ passes }: Assessment): string[] =>
  passes
    .filter(({ endedAt }) => endedAt === undefined)
    .map(({ pass, passKind, welder }) => `Pass ${pass} (${passKind}) is running, welder ${welder}.`);

/** Alarms that nobody has taken note of, what keeps the next pass from starting, what nobody has decided, what is put aside. */
function openText(assessment: Assessment): string[] {
  const { units } = assessment.requirement;
  const alarms = assessment.alarms.filter(isRinging).map((each) => `Alarm: ${alarmText(each, units).what}`);
  const conditions = assessment.phase === 'closed' ? [] : unmetConditions(assessment);
  const undecided = deviationsOf(assessment.findings).open;
  const aside = assessment.shelvings.map(({ by, reason }) => `Alarm put aside by ${by}: ${reason}`);
  return [
    ...alarms,
    ...conditions.map((each) => `Not met: ${conditionText(each, assessment)}`),
    ...undecided.map((each) => `To be decided: ${findingText(each, units).what}`),
    ...(assessment.phase === 'closed' ? [] : stillOpenText(assessment)),
    ...aside,
  ];
}

function howLongText(assessment: Assessment, outlook: Outlook | undefined): string[] {
  const { ahead } = assessment;
  const when = ahead.when?.what === 'comes' ? undefined : aheadText(assessment).when;
  const { units } = assessment.requirement;
  const trend = outlook?.breakByTrend;
  return [
    ...(when === undefined ? [] : [begun(when)]),
    ...(trend === undefined
      ? []
      : [
          `${trend.probe} is below ${limitText(trend.limit, units)} in ${aboutText(trend.time)} if it falls on as it does`,
        ]),
  ];
}
