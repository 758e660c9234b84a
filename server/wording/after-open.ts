/** What is still to be done after the last arc, and what it means to do a step before its time. */
import type { Assessment } from '../judgement/assessment.ts';
import type { Milliseconds } from '../measure/quantity.ts';
import { limitText, ofLimitText } from './temperature.ts';
import { aboutText, durationText } from './time.ts';

/** Short lines in sentence case without full stops, in the order in which they come; empty where nothing is open. */
export const stillOpenText = ({ after, at, hottest, requirement, twinAsked }: Assessment): readonly string[] => {
  if (after === undefined) return [];
  const { units } = requirement;
  const { postHeating, cover, heatTreatment, wait, spots } = after;
  const unread = spots.filter(({ examined }) => examined === undefined).map(({ probe }) => probe);
  const isAbove = cover !== undefined && hottest !== undefined && hottest.temperature > cover.until;
  const lines: (string | false)[] = [
    postHeating !== undefined &&
      postHeating.begunAt === undefined &&
      `Post-heating not begun: ${durationText(postHeating.required)} at ${limitText(postHeating.minimum, units)} or above`,
    postHeating?.begunAt !== undefined &&
      postHeating.endedAt === undefined &&
      `Post-heating running: ${durationText(postHeating.held)} of ${durationText(postHeating.required)} held`,
    cover?.state === 'not entered' &&
      isAbove &&
      `Not covered: it cools under cover down to ${limitText(cover.until, units)}`,
    cover?.state === 'on' && `Under cover: it stays on down to ${limitText(cover.until, units)}`,
    heatTreatment !== undefined && heatTreatment.begunAt === undefined && 'Heat treatment not begun',
    wait.state === 'cooling' && `The ${wait.hours} h before the test do not count until it is at ambient`,
    wait.state === 'waiting' &&
      `Waiting before the test: ${aboutText((wait.until - at) as Milliseconds)} to go of ${wait.hours} h`,
    unread.length > 0 && `${unread.length === 1 ? 'A probe spot' : 'Probe spots'} to be examined: ${unread.join(', ')}`,
    twinAsked !== undefined && `To be read by hand beside ${twinAsked.probe}`,
  ];
  return lines.filter((each) => each !== false);
};

/** Of a step whose time has not come; undefined where nothing speaks against it. A full sentence. */
export const tooEarlyText = (step: string, { after, hottest, requirement }: Assessment): string | undefined => {
  const { units } = requirement;
  const { postHeating, cover, wait } = after ?? {};
  if (step === 'post-heating ended' && postHeating !== undefined && postHeating.state !== 'done')
    return `Only ${durationText(postHeating.held)} of ${durationText(postHeating.required)} are held: ended now, the post-heating does not comply.`;
  if (step === 'cover off' && cover?.state === 'on' && hottest !== undefined && hottest.temperature > cover.until)
    return `Too early: hottest ${ofLimitText(hottest.temperature, cover.until, units)}. It stays covered down to ${limitText(cover.until, units)}.`;
  if (step === 'testing begun' && (wait?.state === 'waiting' || wait?.state === 'cooling'))
    return `Too early: the waiting time of ${wait.hours} h before the test is not over.`;
  return undefined;
};
