/** Chart, history and CSV correct each reading as the judge did, whenever the certificate came. */
import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { createJudge } from '../../../server/judgement/judge.ts';
import { measuredOverTime } from '../../../server/judgement/measuring/over-time.ts';
import { after, type Instant, type MilliCelsius } from '../../../server/measure/quantity.ts';
import { thinJudged } from '../../../server/record/thin-judged.ts';
import type { Input } from '../../../server/weld/entry.ts';
import type { Scan } from '../../../server/weld/scan.ts';
import { readScenario, scenarioStart } from '../../support/scenario.ts';

const read = (file: string) => readScenario(readFileSync(new URL(`./scenarios/${file}.txt`, import.meta.url), 'utf8'));
const isScan = (input: Input): input is Input & { type: 'scan' } => input.type === 'scan';

test.each(['calibration-entered-late', 'calibration-from-now', 'guarded-within-band', 'hand-twin-apart', 'uneven'])(
  '%s: value and uncertainty of every reading are those of the judge',
  (file) => {
    const { inputs } = read(file);
    const measured = measuredOverTime(inputs.filter((each) => !isScan(each)));
    // In the order of effect, as they are when a joint is judged anew.
    const [first, ...rest] = inputs
      .map((each): Input => (each.type === 'scan' ? each : { ...each, at: effect(each) }))
      .sort((a, b) => effect(a) - effect(b));
    if (first?.type !== 'station' || first.event.kind !== 'opened') throw new Error('no opening');
    const judge = createJudge(first.at, first.event);
    let compared = 0;
    for (const input of rest) {
      judge.take(input);
      if (!isScan(input)) continue;
      const { probes } = judge.assess();
      for (const { probe, temperature } of input.scan.values) {
        if (temperature === undefined) continue;
        const judged = probes.find((each) => each.probe === probe)!;
        expect(measured.correct(probe, input.scan.measuredAt, temperature)).toBe(judged.temperature);
        const { expandedUncertainty } = judged;
        expect(measured.expandedUncertainty(probe, input.scan.measuredAt, temperature)).toBe(expandedUncertainty);
        compared += 1;
      }
    }
    expect(compared).toBeGreaterThan(200);
    expect(measured.isCorrected).toBe(file.startsWith('calibration'));
  },
);

test('a peak stays a peak after the correction, in the time from which it holds', () => {
  const { inputs } = read('calibration-from-now');
  const measured = measuredOverTime(inputs.filter((each) => !isScan(each)));
  const scans: Scan[] = inputs.filter(isScan).map(({ scan }) => scan);
  const from = scans[0]!.measuredAt;
  const to = scans.at(-1)!.measuredAt;
  const view = thinJudged(scans, measured, { probes: ['T1'], from, to, points: 5, periodMilliseconds: 1000 });
  const all = scans.flatMap(({ measuredAt, values }) =>
    values.flatMap(({ probe, temperature }) =>
      probe === 'T1' && temperature !== undefined ? [measured.correct('T1', measuredAt, temperature) as number] : [],
    ),
  );
  const steps = view.series[0]!.steps.filter((step) => step[1] !== null) as [number, number, number, number, number][];
  expect(Math.max(...steps.map((step) => step[3]))).toBe(Math.max(...all));
  expect(Math.min(...steps.map((step) => step[2]))).toBe(Math.min(...all));
  expect(view.series[0]!.expandedUncertainty).toHaveLength(view.series[0]!.steps.length);
  expect(new Set(all).size).toBeGreaterThan(1);
});

test('without a register nothing is added and nothing is said of uncertainty', () => {
  const measured = measuredOverTime([]);
  const at = after(scenarioStart, 0) as Instant;
  expect(measured.correct('T1', at, 150_000 as MilliCelsius)).toBe(150_000);
  expect(measured.expandedUncertainty('T1', at, 150_000 as MilliCelsius)).toBeUndefined();
});

function effect(input: Input): Instant {
  if (input.type === 'scan') return input.scan.arrivedAt;
  if (input.type === 'act' && 'happenedAt' in input.act && input.act.happenedAt !== undefined)
    return Math.min(input.act.happenedAt, input.at) as Instant;
  return input.at;
}
