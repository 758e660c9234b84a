/** A station that stood still gets all at once what its boards said meanwhile: one silence a probe, and no more work than the readings are. */
import { expect, test } from 'vitest';
import type { Finding } from '../../../server/judgement/assessment.ts';
import { createJudge, type Judge } from '../../../server/judgement/judge.ts';
import { instant, type MilliCelsius } from '../../../server/measure/quantity.ts';
import type { Quality, Scan } from '../../../server/weld/scan.ts';
import { jointOn } from '../../support/pipeline-bench.ts';

const period = 100;
const begun = 1_750_000_000_000;
const joint = jointOn('one', 'b1');

const judgeOf = (): Judge =>
  createJudge(instant(begun), {
    kind: 'opened',
    joint,
    source: { kind: 'not verified', detail: 'test' },
    periodMilliseconds: period,
    openedBy: 'R. Ahlgren',
    rules: 'test',
    station: 'test',
  });

/** Measured so many milliseconds after the beginning; all probes alike. */
function scanAt(measured: number, arrived: number, quality: Quality = 'good'): Scan {
  const good = { quality: 'good', temperature: 20_000 as MilliCelsius } as const;
  return {
    board: 'b1',
    boot: 1,
    sequence: measured / period,
    ticks: measured,
    measuredAt: instant(begun + measured),
    arrivedAt: instant(begun + arrived),
    late: false,
    inputs: 0,
    values: joint.probes.map((probe) => ({
      probe: probe.id,
      raw: { form: 'none' },
      ...(quality === 'good' ? good : { quality }),
    })),
  };
}

/** Read until 10 s; nothing comes until 21 s, and then all that was measured meanwhile, and what is measured next. */
function afterStandstill(qualityAt: (measured: number) => Quality = () => 'good'): Finding[] {
  const judge = judgeOf();
  const take = (measured: number, arrived: number): void => {
    judge.take({ type: 'scan', scan: scanAt(measured, arrived, qualityAt(measured)) });
  };
  for (let at = period; at <= 10_000; at += period) take(at, at);
  for (let at = 10_000 + period; at <= 21_000; at += period) take(at, 21_000);
  for (let at = 21_000 + period; at <= 25_000; at += period) take(at, at);
  judge.advance(instant(begun + 25_000));
  return judge.assess().findings.filter(({ probe }) => probe === joint.probes[0]!.id);
}

const told = ({ kind, from, to }: Finding) => [kind, from - begun, to === undefined ? undefined : to - begun];
/** The first reading that was fresh when it came. */
const freshAgain = 21_000 - 3 * period;

test('one silence a probe, until a reading is fresh when it comes', () => {
  expect(afterStandstill().map(told)).toEqual([['silent', 10_000, freshAgain]]);
});

test('what failed while nothing came is told as failed since then', () => {
  const failed = afterStandstill((measured) => (measured > 15_000 ? 'open' : 'good'));
  expect(failed.map(told)).toEqual([
    ['silent', 10_000, freshAgain],
    ['open circuit', 15_100, undefined],
  ]);
});

test('what failed and came back while nothing came is told too', () => {
  const back = afterStandstill((measured) => (measured > 15_000 && measured <= 18_000 ? 'open' : 'good'));
  expect(back.map(told)).toEqual([
    ['silent', 10_000, freshAgain],
    ['open circuit', 15_100, 18_100],
  ]);
});
