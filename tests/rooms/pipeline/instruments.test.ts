/** A certificate that comes later than the readings: the joint is judged anew, and what was known before stays in the record. */
import { expect, it } from 'vitest';
import type { Conclusion } from '../../../server/judgement/conclusions.ts';
import { judgeAll } from '../../../server/judgement/judge.ts';
import type { Act } from '../../../server/weld/entry.ts';
import { jointOn, pipelineBench } from '../../support/pipeline-bench.ts';

const joint = {
  ...jointOn('one', 'b1'),
  instruments: [
    { id: 'B-1', kind: 'board' as const, board: 'b1', maximumErrorKelvin: 1.5, coldJunctionErrorKelvin: 0 },
  ],
};
const pass = { pass: '1', passKind: 'root', welder: 'Bo' } as const;
const calibration = (correctionKelvin: number, happenedAt?: number): Act => ({
  kind: 'calibration',
  instrument: 'B-1',
  certificate: 'C-1',
  calibratedOn: '2026-01-15',
  corrections: [0, 400].map((atCelsius) => ({ atCelsius, correctionKelvin, expandedKelvin: 0.5, coverageFactor: 2 })),
  ...(happenedAt === undefined ? {} : { happenedAt }),
});

/** 148 °C as read, against 150 °C: a pass, then 40 minutes while the station is off, longer than the judge keeps. */
async function cold() {
  const bench = pipelineBench();
  bench.hello('b1');
  await bench.open(joint);
  bench.seconds(10, 148);
  await bench.act('one', { kind: 'pass start', ...pass });
  await bench.act('one', { kind: 'pass end', pass: '1' });
  bench.restart({ awayMilliseconds: 40 * 60_000 });
  bench.hello('b1');
  bench.seconds(10, 148);
  return bench;
}
const kinds = (bench: {
  pipeline: { run(id: string): { assessment: { findings: readonly { kind: string }[] } } | undefined };
}) => bench.pipeline.run('one')!.assessment.findings.map(({ kind }) => kind);

it('a correction that holds from the beginning turns the verdict, and the record keeps what was concluded before', async () => {
  const bench = await cold();
  expect(kinds(bench)).toContain('below minimum at pass start');
  const rawBefore = [...bench.record.inputs('one')].filter((each) => each.type === 'scan');

  await bench.act('one', calibration(5, 1));
  bench.seconds(2, 148);
  expect(kinds(bench)).not.toContain('below minimum at pass start');
  expect(bench.pipeline.run('one')!.assessment.verdict).toBe('complies');
  expect(bench.pipeline.run('one')!.assessment.coldest?.temperature).toBe(153_000);

  const said = [...bench.record.conclusions('one')].map((each) => each.body as Conclusion);
  const ofCold = said.flatMap((each) =>
    each.kind === 'finding' && each.finding.kind === 'below minimum at pass start' ? [each.change] : [],
  );
  expect(ofCold).toEqual(['opened', 'closed', 'withdrawn']);
  const rawAfter = [...bench.record.inputs('one')].filter((each) => each.type === 'scan').slice(0, rawBefore.length);
  expect(rawAfter).toEqual(rawBefore);
});

it('live, from the record and after a restart the judgement is the same', async () => {
  const bench = await cold();
  await bench.act('one', calibration(5, 1));
  bench.seconds(2, 148);
  const live = bench.pipeline.run('one')!.assessment;
  expect(judgeAll(bench.record.inputs('one'), live.at).assessment).toEqual(live);
  bench.restart();
  expect({ ...bench.pipeline.run('one')!.assessment, at: live.at }).toEqual(live);
  await bench.act('one', calibration(-5, 1));
  expect(bench.pipeline.run('one')!.assessment.coldest?.temperature).toBe(143_000);
  expect(kinds(bench)).toContain('below minimum at pass start');
});

it('a correction that holds from now leaves what was judged', async () => {
  const bench = await cold();
  await bench.act('one', calibration(5));
  bench.seconds(2, 148);
  expect(kinds(bench)).toContain('below minimum at pass start');
  expect(bench.pipeline.run('one')!.assessment.coldest?.temperature).toBe(153_000);
});

it('what was found of an instrument that is entered only later holds from its entry on, live and anew', async () => {
  const bench = await cold();
  const others = [{ id: 'B9', kind: 'board' as const, board: 'b1' }];
  await bench.act('one', {
    kind: 'revise',
    joint: { ...joint, instruments: others },
    reason: 'the board is known now',
  });
  await bench.act('one', { ...calibration(4, 1), instrument: 'B9' } as Act);
  bench.seconds(2, 148);
  const live = bench.pipeline.run('one')!.assessment;
  expect(live.coldest?.temperature).toBe(152_000);
  expect(judgeAll(bench.record.inputs('one'), live.at).assessment).toEqual(live);
});
