/** The few large figures of a joint: coldest, hottest, interpass, soak, heat; each with its limit beside it. */
import type { Assessment } from '../../../server/judgement/assessment.ts';
import { leastNow } from '../../../server/judgement/phases/least-now.ts';
import type { Instant, Milliseconds } from '../../../server/measure/quantity.ts';
import { probeWhere } from '../../../server/wording/condition.ts';
import { handValueText, uncertaintyText } from '../../../server/wording/instrument.ts';
import { differenceText, limitText, temperatureText, trendText } from '../../../server/wording/temperature.ts';
import { aboutText, durationText } from '../../../server/wording/time.ts';

export interface Figure {
  readonly name: string;
  readonly value: string;
  /** Limit, name of the place, time to go: what the value is read with. */
  readonly beside: readonly string[];
  readonly abnormal: boolean;
}

export const figuresOf = (assessment: Assessment, now: Instant | undefined): Figure[] => [
  coldest(assessment),
  hottest(assessment),
  // Once the last arc is out nobody asks for them.
  ...(assessment.after === undefined ? [...interpass(assessment), ...soak(assessment)] : []),
  heat(assessment, now),
];

const coldest = (assessment: Assessment): Figure => {
  const { units } = assessment.requirement;
  const limit = leastNow(assessment);
  const found = assessment.coldest;
  const beside =
    limit === 'none' ? [] : [limit === undefined ? 'minimum not known' : `minimum ${limitText(limit, units)}`];
  if (found === undefined) return { name: 'Coldest', value: 'not known', beside, abnormal: false };
  if (limit === 'none')
    return {
      name: 'Coldest',
      value: handValueText(found, units, {}),
      beside: [...plusMinus(found.probe, assessment), at(found.probe, assessment)],
      abnormal: false,
    };
  const begunWelding = assessment.passes.length > 0;
  return {
    name: 'Coldest',
    value: handValueText(found, units, { limit }),
    beside: [...plusMinus(found.probe, assessment), at(found.probe, assessment), ...beside],
    abnormal: begunWelding && limit !== undefined && found.temperature < limit,
  };
};

const hottest = (assessment: Assessment): Figure => {
  const { limits } = assessment;
  const { units } = assessment.requirement;
  const found = assessment.hottest;
  const beside = limits.highest === undefined ? [] : [`highest allowed ${limitText(limits.highest, units)}`];
  if (found === undefined) return { name: 'Hottest', value: 'not known', beside, abnormal: false };
  return {
    name: 'Hottest',
    value: temperatureText(found.temperature, units, { limit: limits.highest }),
    beside: [...plusMinus(found.probe, assessment), at(found.probe, assessment), ...beside, ...spreadOf(assessment)],
    abnormal: limits.highest !== undefined && found.temperature > limits.highest,
  };
};

const spreadOf = ({ spread, limits, passes, requirement: { units } }: Assessment): string[] => {
  if (passes.length > 0 || spread.length === 0) return [];
  const widest = spread.reduce((a, b) => (b.spread > a.spread ? b : a));
  return [
    `${widest.face} zone probes ${differenceText(widest.spread, units, { limit: limits.evennessMaximum })} apart`,
  ];
};

const interpass = (assessment: Assessment): Figure[] => {
  const { interpass: now, limits, phase, requirement } = assessment;
  const { units } = requirement;
  if (limits.interpassMaximum === undefined) return [];
  const limit = limits.interpassMaximum;
  const beside = `at most ${limitText(limit, units)}`;
  if (now.temperature === undefined)
    return [{ name: 'Interpass', value: 'not known', beside: [beside], abnormal: false }];
  const hot = now.state === 'too hot' && phase !== 'pass running';
  return [
    {
      name: 'Interpass',
      value: handValueText({ temperature: now.temperature, bound: now.bound }, units, { limit }),
      beside: [
        ...(now.probe === undefined ? [] : [...plusMinus(now.probe, assessment), now.probe]),
        beside,
        ...(now.trendPerMinute === undefined ? [] : [trendText(now.trendPerMinute, units)]),
        ...(hot ? [now.timeToWindow === undefined ? 'too hot' : `too hot, wait ${aboutText(now.timeToWindow)}`] : []),
      ],
      abnormal: false,
    },
  ];
};

const soak = ({ soak: now }: Assessment): Figure[] => {
  if (now.state === 'not needed') return [];
  const required = now.required === undefined ? [] : [`of ${durationText(now.required)}`];
  switch (now.state) {
    case 'running':
    case 'paused':
      return [
        {
          name: now.rule === 'hold' ? 'Hold' : 'Soak',
          value: durationText(now.done ?? (0 as Milliseconds)),
          beside: [...required, now.state],
          abnormal: false,
        },
      ];
    case 'done':
      return [{ name: 'Soak', value: 'done', beside: required, abnormal: false }];
    case 'voided':
      return [{ name: 'Soak', value: 'lost', beside: [...required, 'begins again'], abnormal: true }];
    case 'not judged':
      return [{ name: 'Soak', value: 'not judged', beside: ['no hold stated'], abnormal: false }];
    case 'not begun':
      return [{ name: 'Soak', value: 'not begun', beside: required, abnormal: false }];
  }
};

const heat = ({ heat: state, heatSince }: Assessment, now: Instant | undefined): Figure => ({
  name: 'Heat',
  value: state === 'not entered' ? 'not entered' : state,
  beside: [
    ...(heatSince === undefined || now === undefined
      ? []
      : [`for ${durationText(Math.max(0, now - heatSince) as Milliseconds)}`]),
    ...(state === 'not entered' ? ['say when it goes on'] : []),
  ],
  abnormal: false,
});

const at = (probe: string, assessment: Assessment): string => {
  const where = probeWhere(probe, assessment);
  return where === '' ? probe : `${probe}, ${where}`;
};

/** "±2.4 K" of the newest reading of a probe, where uncertainty is kept. */
const plusMinus = (probe: string, { probes, requirement }: Assessment): string[] => {
  const width = probes.find((each) => each.probe === probe)?.expandedUncertainty;
  return width === undefined ? [] : [`±${uncertaintyText(width, requirement.units)}`];
};
