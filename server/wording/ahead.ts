/** What a phase asks for now, what comes next, and when: short lines without full stops, with the numbers of the joint. */
import type { Assessment, Phase } from '../judgement/assessment.ts';
import type { Required } from '../judgement/phases/ahead-status.ts';
import type { MilliCelsius } from '../measure/quantity.ts';
import { breakAsksText } from './break.ts';
import { unmetConditions } from './readiness.ts';
import { limitText } from './temperature.ts';
import { aboutText, durationText } from './time.ts';
import { conditionName } from './words.ts';

export interface AheadWords {
  readonly now: readonly string[];
  readonly next?: string;
  readonly when?: string;
}

export const aheadText = (assessment: Assessment): AheadWords => {
  const { required, next, when } = assessment.ahead;
  return {
    now: required.map((each) => requiredText(each, assessment)),
    ...(next === undefined ? {} : { next: nextWords[next] }),
    ...(when === undefined ? {} : { when: whenText(when) }),
  };
};

const whenText = ({ what, time, by }: NonNullable<Assessment['ahead']['when']>): string => {
  const about = aboutText(time);
  const end = by === 'trend' ? `${about} as it goes now` : `${about} to go`;
  return what === 'comes' ? end : `kept for ${end}`;
};

/** As what comes. */
const nextWords: Readonly<Record<Phase, string>> = {
  planned: 'the plan',
  checking: 'the checks, then the heat',
  heating: 'heating',
  equalising: 'evening out',
  ready: 'ready for the arc',
  'pass running': 'the pass',
  'between passes': 'the end of the pass, then the next or the end of welding',
  interrupted: 'a break',
  'before post-heating': 'post-heating',
  'post-heating': 'post-heating',
  cooling: 'cooling',
  waiting: 'the wait before the test',
  complete: 'the test',
  closed: 'closing the joint',
};

const requiredText = (required: Required, assessment: Assessment): string => {
  const { limits, after, requirement } = assessment;
  const { units } = requirement;
  const degrees = (limit: MilliCelsius | undefined): string => (limit === undefined ? '' : limitText(limit, units));
  const minimum = limits.preheatMinimum === undefined ? 'the minimum' : degrees(limits.preheatMinimum);
  switch (required) {
    case 'check the probes':
      return 'check the probes while all is cold';
    case 'answer the checks':
      return 'answer the checks before welding';
    case 'release the points':
      return 'release of the hold point before it goes on';
    case 'heat on':
      return 'enter heat on when it goes on';
    case 'every place at the minimum':
      return `every required place at ${minimum} or above`;
    case 'heat off and wait':
      return `heat off, then wait${soakTime(assessment)}`;
    case 'hold':
      return `hold at the minimum${soakTime(assessment)}`;
    case 'warm through and held':
      return `warm through at ${minimum}${holdTime(assessment)}`;
    case 'other conditions':
      return othersText(assessment);
    case 'keep the minimum':
      return `no required place below ${minimum}`;
    case 'stay below the highest':
      return `nowhere above ${degrees(limits.highest)}`;
    case 'cool to the maximum':
      return `wait until it is at ${degrees(limits.interpassMaximum)} or below beside the weld`;
    case 'keep warm in the break':
      return `no required place below ${degrees(limits.maintenanceMinimum)} in the break`;
    case 'what the break asks for':
      return breakText(assessment);
    case 'keep the minimum until post-heating':
      return `no required place below ${minimum} until post-heating begins`;
    case 'hold the post-heating':
      return after?.postHeating === undefined
        ? 'hold the post-heating'
        : `hold ${degrees(after.postHeating.minimum)} or above for ${durationText(after.postHeating.required)}`;
    case 'end the post-heating':
      return 'post-heating is done: enter its end';
    case 'keep the cover on':
      return `the cover stays on down to ${degrees(after?.cover?.until)}`;
    case 'cool no faster':
      return 'cool no faster than the procedure allows';
    case 'cool before heat treatment':
      return `all of the zone at ${degrees(after?.heatTreatment?.coolTo)} or below before heat treatment`;
    case 'cool to ambient':
      return after?.wait.state === 'cooling'
        ? `all of the zone at ${degrees(after.wait.to)} or below: from there the wait counts`
        : 'cool to ambient';
    case 'no test yet':
      return 'no test before the waiting time is over';
    case 'examine the spots':
      return 'grind and examine the spots of the probes';
    case 'begin heat treatment':
      return 'heat treatment';
    case 'close the joint':
      return 'enter the test, decide what is open, close the joint';
  }
};

const soakTime = ({ soak }: Assessment): string =>
  soak.required === undefined ? '' : ` ${durationText(soak.required)}`;

const holdTime = ({ throughThickness }: Assessment): string =>
  throughThickness.required === 0 ? '' : `, held ${durationText(throughThickness.required)}`;

const ofHeat: ReadonlySet<string> = new Set(['minimum reached', 'soak', 'through thickness', 'interpass maximum']);

const othersText = (assessment: Assessment): string => {
  const names = unmetConditions(assessment)
    .filter(({ id }) => !ofHeat.has(id))
    .map(({ id }) => conditionName(id).toLowerCase());
  return `to be cleared: ${[...new Set(names)].join(', ')}`;
};

const breakText = ({ breaks, limits, requirement }: Assessment): string => {
  const newest = breaks?.at(-1);
  const asks = newest === undefined ? undefined : breakAsksText(newest, limits.preheatMinimum, requirement.units);
  return asks === undefined
    ? 'ask the coordinator: the procedure does not say what is to be done after it got too cold'
    : `before the next pass: ${asks}`;
};
