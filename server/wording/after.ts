/** What comes after the last arc, in words: what was entered, and how post-heating, cooling and the wait stand. */
import type { AfterStatus, PostHeatingStatus } from '../judgement/after/after-status.ts';
import type { Assessment } from '../judgement/assessment.ts';
import type { Instant, Milliseconds } from '../measure/quantity.ts';
import type { UnitSystem } from '../measure/units.ts';
import type { AfterAct } from '../weld/entry.ts';
import { limitText, ofLimitText, temperatureText } from './temperature.ts';
import { aboutText, durationText } from './time.ts';

/** One line without a full stop. */
export const afterActText = (act: AfterAct): string => {
  switch (act.kind) {
    case 'welding complete':
      return 'Welding complete';
    case 'post-heating':
      return `Post-heating ${act.state}`;
    case 'cover':
      return act.state === 'on' ? 'Covered to cool slowly' : 'Cover taken off';
    case 'heat treatment begun':
      return 'Heat treatment begun';
    case 'testing begun':
      return `Testing begun: ${act.method}`;
    case 'spot examined':
      return `Spot of ${act.probe} ground and examined (${act.method}): ${act.result}`;
  }
};

/** The one sentence once the last arc is out; no full stop, as the sentence before it. */
export const afterSentence = (assessment: Assessment): string => {
  const { phase, after, limits, coldest, hottest, at } = assessment;
  const { units } = assessment.requirement;
  switch (phase) {
    case 'before post-heating': {
      const keep = limits.preheatMinimum === undefined ? '' : ` at ${limitText(limits.preheatMinimum, units)} or above`;
      const now =
        coldest === undefined
          ? ''
          : `, coldest ${temperatureText(coldest.temperature, units, { limit: limits.preheatMinimum })} at ${coldest.probe}`;
      return `Welding complete: keep it${keep} until post-heating begins${now}`;
    }
    case 'post-heating':
      return postHeatingSentence(after?.postHeating, assessment);
    case 'cooling': {
      const until = after?.wait.state === 'cooling' ? after.wait.to : after?.cover?.until;
      const now =
        hottest === undefined
          ? ''
          : `: hottest ${temperatureText(hottest.temperature, units, { limit: until })} at ${hottest.probe}`;
      return `Cooling${now}${coverText(assessment)}`;
    }
    case 'waiting':
      return after?.wait.state === 'waiting'
        ? `Waiting before the test: ${aboutText((after.wait.until - at) as Milliseconds)} to go of ${after.wait.hours} h${coverText(assessment)}${spotsText(after.spots)}`
        : 'Waiting before the test';
    default:
      return after?.wait.state === 'over'
        ? `The waiting time of ${after.wait.hours} h is over`
        : 'Welding complete; no waiting time is known for the test';
  }
};

/** What the cover is to do now; empty where none is asked for or on. */
const coverText = ({ after, hottest, requirement }: Assessment): string => {
  const cover = after?.cover;
  if (cover === undefined || cover.state === 'off') return '';
  const until = limitText(cover.until, requirement.units);
  const isAbove = hottest === undefined || hottest.temperature > cover.until;
  if (cover.state === 'not entered') return isAbove ? `, cover it now: it cools under cover down to ${until}` : '';
  return isAbove ? `, cover stays on down to ${until}` : `, at ${until} or below the cover may come off`;
};

const spotsText = (spots: AfterStatus['spots']): string => {
  const open = spots.filter(({ examined }) => examined === undefined).length;
  return open === 0 ? '' : `; ${open} probe ${open === 1 ? 'spot' : 'spots'} to be examined`;
};

const postHeatingSentence = (status: PostHeatingStatus | undefined, { coldest, requirement }: Assessment): string => {
  if (status === undefined) return 'Post-heating';
  const { units } = requirement;
  const done = `${durationText(status.held)} of ${durationText(status.required)} at ${limitText(status.minimum, units)} or above`;
  if (status.state === 'done') return `Post-heating: ${done}; it may end`;
  const now =
    coldest === undefined
      ? ''
      : `, coldest ${ofLimitText(coldest.temperature, status.minimum, units)} at ${coldest.probe}`;
  const state = status.state === 'running' ? '' : ', not counting now';
  return `Post-heating: ${done}${state}${now}`;
};

/** Name and text of each thing that stands after the last arc; for screen and paper. `when` writes an instant with its day. */
export const afterLines = (
  after: AfterStatus,
  units: UnitSystem,
  when: (at: Instant) => string,
): readonly { readonly name: string; readonly text: string }[] => {
  const { postHeating, cover, heatTreatment, wait, spots } = after;
  return [
    { name: 'Welding complete', text: when(after.completedAt) },
    ...(postHeating === undefined ? [] : [{ name: 'Post-heating', text: postHeatingLine(postHeating, units, when) }]),
    ...(cover === undefined
      ? []
      : [{ name: 'Cover', text: `${coverWords[cover.state]}; it stays on down to ${limitText(cover.until, units)}` }]),
    ...(heatTreatment === undefined
      ? []
      : [{ name: 'Heat treatment', text: heatTreatmentLine(heatTreatment, units, when) }]),
    { name: 'Waiting time', text: waitLine(wait, units, when) },
    ...spots.map(({ probe, examined }) => ({
      name: `Spot of ${probe}`,
      text:
        examined === undefined
          ? 'to be ground and examined'
          : `ground and examined (${examined.method}), ${examined.result}, ${when(examined.at)}`,
    })),
  ];
};

const coverWords = { on: 'on', off: 'off', 'not entered': 'not entered' } as const;

const postHeatingLine = (status: PostHeatingStatus, units: UnitSystem, when: (at: Instant) => string): string => {
  const { minimum, maximum, counted, required, held, begunAt, doneAt, endedAt } = status;
  const most = maximum === undefined ? '' : `, at most ${limitText(maximum, units)}`;
  const asked = `${durationText(required)} at ${limitText(minimum, units)} or above${most}, ${counted === 'cumulative' ? 'summed' : 'without a break'}`;
  const done = begunAt === undefined ? 'not begun' : `${durationText(held)} held`;
  return [
    `asked: ${asked}`,
    done,
    begunAt === undefined ? undefined : `begun ${when(begunAt)}`,
    doneAt === undefined ? undefined : `reached ${when(doneAt)}`,
    endedAt === undefined ? undefined : `ended ${when(endedAt)}`,
  ]
    .filter((each) => each !== undefined)
    .join('; ');
};

const heatTreatmentLine = (
  { coolTo, cooledAt, latestAt, begunAt }: NonNullable<AfterStatus['heatTreatment']>,
  units: UnitSystem,
  when: (at: Instant) => string,
): string =>
  [
    cooledAt === undefined
      ? `not before all of the zone is at ${limitText(coolTo, units)} or below`
      : `cooled to ${limitText(coolTo, units)} ${when(cooledAt)}`,
    latestAt === undefined ? undefined : `at the latest ${when(latestAt)}`,
    begunAt === undefined ? 'not begun' : `begun ${when(begunAt)}`,
  ]
    .filter((each) => each !== undefined)
    .join('; ');

const waitLine = (wait: AfterStatus['wait'], units: UnitSystem, when: (at: Instant) => string): string => {
  switch (wait.state) {
    case 'not known':
      return 'not known: no rule is chosen for this joint, or its rule gives no time; ask whoever is in charge of testing';
    case 'cooling':
      return `${wait.hours} h, counted from when all of the zone is at ${limitText(wait.to, units)} or below`;
    case 'waiting':
      return `${wait.hours} h from ${when(wait.from)}: no test before ${when(wait.until)}`;
    case 'over':
      return `${wait.hours} h from ${when(wait.from)}, over since ${when(wait.until)}`;
  }
};
