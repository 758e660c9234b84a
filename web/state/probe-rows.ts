/** One row for each probe: value, age, trend, place. A value that is not fresh is never shown as the present one. */

import type { Assessment } from '../../server/judgement/assessment.ts';
import { isBeforeHeat } from '../../server/judgement/phases/phase-kind.ts';
import type { ProbeStatus } from '../../server/judgement/probe-status.ts';
import type { Instant, MilliCelsius } from '../../server/measure/quantity.ts';
import { outcomeText } from '../../server/wording/ambient.ts';
import { plusMinusText, signedDifferenceText } from '../../server/wording/instrument.ts';
import { temperatureText, trendText } from '../../server/wording/temperature.ts';
import { qualityText, useText as wordOfUse } from '../../server/wording/words.ts';
import { asJudged } from '../feed/as-judged.ts';
import { blindBounds } from '../feed/bounds.ts';
import type { LiveJoint } from '../feed/live-joint.ts';
import { answers } from '../feed/touch.ts';
import { placeMark } from '../format/place.ts';
import { ageText } from '../format/time.ts';

/** fresh: as good as it gets. distrusted: fresh, but with an open finding. stale: too old. fault: the board says so. none: nothing ever came. */
export type ProbeState = 'fresh' | 'distrusted' | 'stale' | 'fault' | 'none';

export interface ProbeRow {
  readonly probe: string;
  readonly use: string;
  readonly place: string;
  readonly state: ProbeState;
  /** The present value, or what stands in its place: "128 °C", "wire open", "no reading". */
  readonly value: string;
  /** The last value there was, where there is no present one. */
  readonly before?: string;
  /** "±2.4 K", and whether a correction is in the value; absent where nothing is known of it. */
  readonly plusMinus?: string;
  /** "by hand +1.2 K, 3 h ago": the newest reading by hand beside it. */
  readonly twin?: string;
  readonly age: string;
  readonly trend: string;
  readonly direction: 'up' | 'down' | 'level' | 'unknown';
  readonly required: boolean;
  /** answers: warmed by hand while the probes are being fitted. */
  readonly mark?: 'coldest' | 'hottest' | 'answers';
  /** What the check at ambient found, where that was not in order. */
  readonly atAmbient?: string;
  /** Beyond a limit that holds for this place. */
  readonly beyond?: 'below minimum' | 'above limit';
}

export const probeRows = (live: LiveJoint, now: Instant | undefined): ProbeRow[] =>
  live.assessment.probes.map((status) => row(live, status, now));

function row(live: LiveJoint, status: ProbeStatus, now: Instant | undefined): ProbeRow {
  const { assessment } = live;
  const { units } = assessment.requirement;
  const { probe, use, place, required, trendPerMinute: trend } = status;
  const came = live.newest[probe];
  const reading = came === undefined ? undefined : asJudged(came, live);
  const age = reading === undefined || now === undefined ? undefined : Math.max(0, now - reading.at);
  const old = age === undefined || age >= blindBounds.oldPeriods * live.periodMilliseconds;
  const limit = limitsFor(assessment, status);
  const number =
    reading?.temperature === undefined
      ? undefined
      : temperatureText(reading.temperature as MilliCelsius, units, { limit });
  const state = stateOf(status, reading?.quality, old);
  const present = (state === 'fresh' || state === 'distrusted') && number !== undefined;
  const beyond = present ? beyondOf(assessment, status, reading!.temperature!) : undefined;
  const fitting = isBeforeHeat(assessment.phase) && now !== undefined && answers(live.touches, probe, now);
  const checked = assessment.ambientCheck?.made?.probes.find((each) => each.probe === probe);
  const mark = !present ? undefined : fitting ? 'answers' : markOf(assessment, probe);
  return {
    probe,
    use: wordOfUse(use),
    place: place === undefined ? '' : placeMark(place, units),
    state,
    value: present
      ? number
      : reading !== undefined && reading.quality !== 'good'
        ? qualityText(reading.quality)
        : 'no reading',
    ...(state === 'stale' && number !== undefined ? { before: number } : {}),
    ...(present && status.expandedUncertainty !== undefined
      ? { plusMinus: plusMinusText(status.expandedUncertainty, status.correction, units) }
      : {}),
    ...twinOf(assessment, probe, now),
    age: age === undefined ? 'never' : `${ageText(age)}`,
    trend: present && trend !== undefined ? trendText(trend, units) : '',
    direction:
      !present || trend === undefined ? 'unknown' : Math.abs(trend) < 100 ? 'level' : trend > 0 ? 'up' : 'down',
    required,
    ...(mark === undefined ? {} : { mark }),
    ...(checked === undefined || checked.outcome === 'in order' ? {} : { atAmbient: outcomeText(checked, units) }),
    ...(beyond === undefined ? {} : { beyond }),
  };
}

function twinOf({ twins, requirement }: Assessment, probe: string, now: Instant | undefined): { twin?: string } {
  const read = twins?.find((each) => each.probe === probe);
  if (read === undefined) return {};
  const ago = now === undefined ? '' : `, ${ageText(Math.max(0, now - read.at))} ago`;
  return { twin: `by hand ${signedDifferenceText(read.difference, requirement.units)}${ago}` };
}

const stateOf = (status: ProbeStatus, quality: string | undefined, old: boolean): ProbeState => {
  if (quality === undefined) return 'none';
  if (old) return 'stale';
  if (quality !== 'good') return 'fault';
  return status.trusted ? 'fresh' : 'distrusted';
};

/** The limits a value is read against, so that it is not rounded across one. */
const limitsFor = ({ limits }: Assessment, { use, required }: ProbeStatus): MilliCelsius[] =>
  [
    required ? limits.preheatMinimum : undefined,
    use === 'interpass' ? limits.interpassMaximum : undefined,
    limits.highest,
  ].filter((limit) => limit !== undefined);

const beyondOf = (
  { limits, phase }: Assessment,
  { use, required, place }: ProbeStatus,
  value: number,
): ProbeRow['beyond'] => {
  const onPart = place !== undefined && use !== 'heater control' && use !== 'ambient';
  if (onPart && limits.highest !== undefined && value > limits.highest) return 'above limit';
  if (
    use === 'interpass' &&
    phase !== 'pass running' &&
    limits.interpassMaximum !== undefined &&
    value > limits.interpassMaximum
  )
    return 'above limit';
  if (required && limits.preheatMinimum !== undefined && value < limits.preheatMinimum) return 'below minimum';
  return undefined;
};

const markOf = ({ coldest, hottest }: Assessment, probe: string): ProbeRow['mark'] => {
  if (coldest?.probe === probe) return 'coldest';
  return hottest?.probe === probe ? 'hottest' : undefined;
};
