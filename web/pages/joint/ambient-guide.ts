/**
 * The course of a check at ambient at the screen: what is read at rest, then each probe in turn, and what each touch
 * shows as it goes. Plain data; the outcome of a touch is the judge's own reckoning of it.
 */
import { endTouch } from '../../../server/judgement/ambient/course.ts';
import {
  type AmbientOutcomes,
  ambientOutcomes,
  type Touched,
  touchOutcome,
} from '../../../server/judgement/ambient/touch.ts';
import type { Instant } from '../../../server/measure/quantity.ts';
import {
  type AmbientCheck,
  type AmbientTouch,
  ambientCheckSchema,
  touchSchema,
} from '../../../server/weld/ambient-check.ts';
import type { Act } from '../../../server/weld/entry.ts';
import { blindBounds } from '../../feed/bounds.ts';
import type { LiveJoint } from '../../feed/live-joint.ts';

/** What is done so far; it outlives a reload. */
export interface Guide {
  readonly rest: AmbientCheck['rest'];
  readonly touches: readonly AmbientTouch[];
  /** Left out by the person; they are told as not touched. */
  readonly leftOut: readonly string[];
}

/** Fresh temperatures as they are judged, by probe; a probe without one is absent. */
export function readNow({ assessment, newest, periodMilliseconds }: LiveJoint, now: Instant): Map<string, number> {
  const read = new Map<string, number>();
  for (const { probe, correction = 0 } of assessment.probes) {
    const reading = newest[probe];
    if (reading?.temperature === undefined || reading.quality !== 'good') continue;
    if (now - reading.at < blindBounds.oldPeriods * periodMilliseconds)
      read.set(probe, (reading.temperature + correction) / 1000);
  }
  return read;
}

export function atRest(live: LiveJoint, now: Instant): AmbientCheck['rest'] {
  const read = readNow(live, now);
  return live.assessment.probes.map(({ probe }) => {
    const celsius = read.get(probe);
    return { probe, ...(celsius === undefined ? {} : { celsius }) };
  });
}

export const beginGuide = (live: LiveJoint, now: Instant): Guide => ({
  rest: atRest(live, now),
  touches: [],
  leftOut: [],
});

/** The next that can be touched and was not yet; undefined once all are through. */
export const nextProbe = ({ rest, touches, leftOut }: Guide): string | undefined =>
  rest.find(
    ({ probe, celsius }) =>
      celsius !== undefined && !leftOut.includes(probe) && !touches.some((touch) => touch.probe === probe),
  )?.probe;

export const touchSoFar = (touch: AmbientTouch, { rest }: Guide): Touched => touchOutcome(touch, rest);

/** A touch that is done takes the place of an earlier one of the same probe. */
export function withTouch(guide: Guide, touch: AmbientTouch): Guide {
  return {
    ...guide,
    touches: [...guide.touches.filter(({ probe }) => probe !== touch.probe), endTouch(touch)],
    leftOut: guide.leftOut.filter((probe) => probe !== touch.probe),
  };
}

export const leaveOut = (guide: Guide, probe: string): Guide => ({ ...guide, leftOut: [...guide.leftOut, probe] });

/** To be touched once more. */
export const again = (guide: Guide, probe: string): Guide => ({
  ...guide,
  touches: guide.touches.filter((touch) => touch.probe !== probe),
  leftOut: guide.leftOut.filter((each) => each !== probe),
});

export const outcomesOf = ({ rest, touches }: Guide, airCelsius: number): AmbientOutcomes =>
  ambientOutcomes({ airCelsius, rest, touches: [...touches] });

export const checkAct = (guide: Guide, airCelsius: number, airReadWith: string): Act => ({
  kind: 'ambient check',
  airCelsius,
  ...(airReadWith === '' ? {} : { airReadWith }),
  rest: guide.rest,
  touches: [...guide.touches],
});

/** As it was kept on this device; undefined where that is not, or no longer, the course of a check of this joint. */
export function readGuide(text: string, probes: readonly string[]): Guide | undefined {
  try {
    const { rest, touches, leftOut } = JSON.parse(text) as { rest: unknown; touches: unknown; leftOut: unknown };
    const guide = {
      rest: ambientCheckSchema.shape.rest.parse(rest),
      touches: touchSchema.array().parse(touches),
      leftOut: touchSchema.shape.probe.array().parse(leftOut),
    };
    const same = guide.rest.length === probes.length && guide.rest.every(({ probe }) => probes.includes(probe));
    return same ? guide : undefined;
  } catch {
    return undefined;
  }
}
