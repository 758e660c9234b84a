/**
 * All joints, the one that needs someone first. Silent ones are never left out. What is shown was said by the
 * station at one instant; the page says so when that instant is too long ago.
 */

import {
  type AlarmPriority,
  alarmPriorities,
  alarmPriority,
  isRinging,
} from '../../../server/judgement/alarm-rules.ts';
import type { Alarm, Assessment } from '../../../server/judgement/assessment.ts';
import { leastNow } from '../../../server/judgement/phases/least-now.ts';
import { isBeforeHeat } from '../../../server/judgement/phases/phase-kind.ts';
import type { FoundJoint } from '../../../server/past/view.ts';
import type { JointSummary } from '../../../server/screen/contract.ts';
import { alarmText } from '../../../server/wording/alarm.ts';
import { deviationCountText } from '../../../server/wording/deviation.ts';
import { readinessSentence } from '../../../server/wording/readiness.ts';
import { awayTag } from '../../../server/wording/removal.ts';
import { ofLimitText } from '../../../server/wording/temperature.ts';
import { phaseText, sourceMark, verdictHeadline } from '../../../server/wording/words.ts';

/** alarm, outside: someone is needed now. silent: nobody knows. The rest in the order of how soon someone will be. */
type OpenNeed = 'alarm' | 'outside' | 'silent' | 'answer' | 'waiting' | 'ready' | 'running' | 'planned';
export type Need = OpenNeed | 'closed';

export interface OverviewRow {
  readonly id: string;
  readonly title: string;
  readonly need: Need;
  /** One or two words: what the row is about. */
  readonly word: string;
  readonly sentence: string;
  /** Absent where nothing is watched any more. */
  readonly coldest?: string;
  /** Of the most urgent alarm that rings. */
  readonly priority?: AlarmPriority;
  readonly mark?: string;
  /** That its readings are not in the record. */
  readonly away?: string;
}

type OpenRow = OverviewRow & { readonly need: OpenNeed };

const order: readonly OpenNeed[] = ['alarm', 'outside', 'silent', 'answer', 'running', 'ready', 'waiting', 'planned'];

export const overviewRows = (joints: readonly JointSummary[]): OpenRow[] =>
  joints
    .map(row)
    .toSorted((a, b) => order.indexOf(a.need) - order.indexOf(b.need) || a.title.localeCompare(b.title, 'en'));

/** What was found when it was closed. Nothing of it is watched any more. */
export function closedRow({ id, title, verdict, source, deviations, readingsRemoved }: FoundJoint): OverviewRow {
  const decided = deviationCountText(deviations);
  const mark = sourceMark({ kind: source });
  return {
    id,
    title,
    need: 'closed',
    word: phaseText('closed'),
    sentence: `${verdictHeadline(verdict)}${decided === '' ? '' : `; deviations: ${decided}`}`,
    ...(mark === undefined ? {} : { mark }),
    ...(readingsRemoved === undefined ? {} : { away: awayTag }),
  };
}

function row({ id, title, assessment }: JointSummary): OpenRow {
  const need = needOf(assessment);
  const mark = sourceMark(assessment.source);
  const [first] = ringing(assessment);
  const { coldest, requirement } = assessment;
  const least = leastNow(assessment);
  return {
    id,
    title,
    need,
    word: wordOf(need, assessment),
    sentence: sentenceOf(need, assessment),
    coldest:
      coldest === undefined
        ? 'no reading'
        : ofLimitText(coldest.temperature, least === 'none' ? undefined : least, requirement.units),
    ...(first === undefined || need !== 'alarm' ? {} : { priority: alarmPriority(first) }),
    ...(mark === undefined ? {} : { mark }),
  };
}

/** The most urgent first. */
const ringing = ({ alarms }: Assessment): Alarm[] =>
  alarms
    .filter(isRinging)
    .toSorted((a, b) => alarmPriorities.indexOf(alarmPriority(a)) - alarmPriorities.indexOf(alarmPriority(b)));

/** A limit is passed; a place that is not judged is told as silent. Put aside or not: a person has to come. */
const isOutside = ({ kind, suppressed }: Alarm): boolean =>
  suppressed === undefined &&
  (kind === 'below minimum' ||
    kind === 'through thickness lost' ||
    kind === 'above highest temperature' ||
    kind === 'maintenance temperature lost');

const needOf = (assessment: Assessment): OpenNeed => {
  const { phase, alarms, ready, probes } = assessment;
  if (alarms.some(isRinging)) return 'alarm';
  if (alarms.some((alarm) => alarm.state !== 'returned unacknowledged' && isOutside(alarm))) return 'outside';
  const required = probes.filter((probe) => probe.required);
  const heard = required.filter((probe) => probe.fresh);
  if (!isBeforeHeat(phase) && heard.length < required.length) return 'silent';
  if (isBeforeHeat(phase) && required.length > 0 && heard.length === 0) return 'silent';
  if (assessment.requirement.warnings.some((warning) => warning.wantsAnswer)) return 'answer';
  if (phase === 'pass running') return 'running';
  if (ready) return 'ready';
  return isBeforeHeat(phase) ? 'planned' : 'waiting';
};

const wordOf = (need: OpenNeed, { phase }: Assessment): string => {
  switch (need) {
    case 'alarm':
      return 'Alarm';
    case 'outside':
      return 'Outside';
    case 'silent':
      return 'Silent';
    case 'answer':
      return 'Answer';
    case 'ready':
      return phaseText('ready');
    case 'waiting':
    case 'running':
    case 'planned':
      return phaseText(phase);
  }
};

const sentenceOf = (need: OpenNeed, assessment: Assessment): string => {
  if (need === 'alarm') {
    const [first, ...others] = ringing(assessment);
    if (first !== undefined)
      return `${alarmText(first, assessment.requirement.units).what}${others.length === 0 ? '' : `; and ${others.length} more`}`;
  }
  if (need === 'silent') {
    const silent = assessment.probes.filter((probe) => probe.required && !probe.fresh).map((probe) => probe.probe);
    return `No fresh reading at ${silent.slice(0, 4).join(', ')}${silent.length > 4 ? ` and ${silent.length - 4} more` : ''}`;
  }
  return readinessSentence(assessment);
};
