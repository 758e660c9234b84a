/**
 * The one sentence that answers "may I start": what holds it up, with its number and the time to go, or
 * that it is ready and by what. It never says that a weld is safe, and it says "ready" only when the judge does.
 */
import type { Assessment } from '../judgement/assessment.ts';
import type { Condition, ConditionId } from '../judgement/condition.ts';
import type { Outlook, SectionOutlook } from '../judgement/inside/section-status.ts';
import { isBetweenArcs } from '../judgement/phases/phase-kind.ts';
import { afterSentence } from './after.ts';
import { conditionText, probeWhere } from './condition.ts';
import { inside } from './list.ts';
import { outlookText } from './section.ts';
import { ofLimitText } from './temperature.ts';
import { verdictHeadline } from './words.ts';

/** "Not ready: opposite face 128 °C of 150 °C at T4, about 14 min". No full stop: it stands alone, large. */
export const readinessSentence = (assessment: Assessment, outlook?: Outlook): string => {
  const { phase, ready } = assessment;
  switch (phase) {
    case 'closed':
      return `Closed: ${verdictHeadline(assessment.verdict).toLowerCase()}`;
    case 'pass running':
      return `${runningText(assessment)}${outsideText(assessment)}`;
    case 'before post-heating':
    case 'post-heating':
    case 'cooling':
    case 'waiting':
    case 'complete':
      return afterSentence(assessment);
    case 'planned':
    case 'checking':
    case 'heating':
    case 'equalising':
    case 'ready':
    case 'between passes':
    case 'interrupted':
      if (!ready) return notReadyText(assessment, outlook);
      return `${isBetweenArcs(phase) ? 'Ready for the next pass' : 'Ready'}${because(assessment)}`;
  }
};

/** Conditions that hold it up, the one to see to first in front. Empty when the judge says ready. */
export const unmetConditions = ({ ready, conditions }: Assessment): readonly Condition[] =>
  ready
    ? []
    : conditions
        .filter(({ state, reason }) => state !== 'met' && reason !== 'no limit stated')
        .toSorted((a, b) => rank(a) - rank(b));

const order: readonly ConditionId[] = [
  'highest temperature',
  'minimum stated',
  'zone probes placed',
  'minimum reached',
  'through thickness',
  'soak',
  'evenness',
  'interpass maximum',
  'answers given',
  'instruments calibrated',
  'ambient check',
  'after break',
  'checks',
  'hold points',
];

const rank = ({ id }: Condition): number => order.indexOf(id);

const notReadyText = (assessment: Assessment, outlook: Outlook | undefined): string => {
  const [first, ...others] = unmetConditions(assessment);
  if (first === undefined) return 'Not ready: waiting for readings';
  const more = others.length === 0 ? '' : `; and ${others.length} more`;
  const ahead =
    first.id === 'through thickness' && first.reason === 'below minimum' ? aheadText(outlook, assessment) : '';
  return `Not ready: ${phrase(first, assessment)}${ahead}${more}`;
};

/** When the slowest part is warm through, or that it never is as it stands. */
const aheadText = (outlook: Outlook | undefined, { requirement }: Assessment): string => {
  const latest = (each: SectionOutlook): number =>
    each.reaches === 'always' ? (each.ready?.latest ?? 0) : Number.POSITIVE_INFINITY;
  const slowest = outlook?.sections.toSorted((a, b) => latest(b) - latest(a))[0];
  return slowest === undefined ? '' : `, ${outlookText(slowest, requirement.units)}`;
};

const phrase = (condition: Condition, assessment: Assessment): string => inside(conditionText(condition, assessment));

const because = (assessment: Assessment): string => {
  const coldest = coldestText(assessment);
  if (coldest !== undefined) return `: ${coldest}`;
  return assessment.limits.preheatMinimum === undefined ? ': no preheat needed' : '';
};

const coldestText = (assessment: Assessment): string | undefined => {
  const { coldest, limits } = assessment;
  if (coldest === undefined) return undefined;
  const where = probeWhere(coldest.probe, assessment);
  const number = ofLimitText(
    coldest.temperature,
    limits.preheatMinimum,
    assessment.requirement.units,
    undefined,
    coldest.bound,
  );
  return `coldest ${where === '' ? '' : `${where} `}${number} at ${coldest.probe}`;
};

const runningText = (assessment: Assessment): string => {
  const running = assessment.passes.filter(({ endedAt }) => endedAt === undefined).map(({ pass }) => pass);
  const names =
    running.length === 0 ? 'Pass running' : `${running.length === 1 ? 'Pass' : 'Passes'} ${running.join(', ')} running`;
  const coldest = coldestText(assessment);
  return coldest === undefined ? names : `${names}: ${coldest}`;
};

/**
 * While an arc burns only what holds during a pass is told: the minimum and the highest temperature. Soak
 * and interpass were asked at its start.
 */
const outsideText = (assessment: Assessment): string => {
  const lost = unmetConditions(assessment).filter(({ id }) => id === 'highest temperature' || id === 'minimum reached');
  const [first] = lost;
  if (first === undefined) return '';
  if (first.reason === 'below minimum') return ', below the minimum';
  return `; ${phrase(first, assessment)}`;
};
