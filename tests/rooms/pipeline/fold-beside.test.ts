/** A correction that reaches far back is folded beside the trip: readings go on, the old verdict stands meanwhile, and the new one is the same. */
import { expect, it, onTestFinished } from 'vitest';
import { createErrands, type Errands } from '../../../server/errands/errands.ts';
import { firstOf, type JudgeMemory, judgeAll } from '../../../server/judgement/judge.ts';
import type { Act } from '../../../server/weld/entry.ts';
import { jointOn, pipelineBench } from '../../support/pipeline-bench.ts';

const joint = {
  ...jointOn('one', 'b1'),
  instruments: [
    { id: 'B-1', kind: 'board' as const, board: 'b1', maximumErrorKelvin: 1.5, coldJunctionErrorKelvin: 0 },
  ],
};
const calibration = (correctionKelvin: number, happenedAt = 1): Act => ({
  kind: 'calibration',
  instrument: 'B-1',
  certificate: 'C-1',
  calibratedOn: '2026-01-15',
  corrections: [0, 400].map((atCelsius) => ({ atCelsius, correctionKelvin, expandedKelvin: 0.5, coverageFactor: 2 })),
  happenedAt,
});

/** Somebody who folds when told to, and hands over what another thread would: a copy. */
function folder() {
  const waiting: {
    joint: string;
    inputs: number;
    done: (memory: JudgeMemory) => void;
    failed: (cause: Error) => void;
  }[] = [];
  return {
    waiting,
    fold: (joint: string, inputs: number) =>
      new Promise<JudgeMemory>((done, failed) => waiting.push({ joint, inputs, done, failed })),
  };
}

/** Longer than the judge keeps: a pass below the minimum as read, then 40 minutes away. */
async function cold(fold: ReturnType<typeof folder>) {
  const bench = pipelineBench(undefined, fold.fold);
  bench.hello('b1');
  await bench.open(joint);
  bench.seconds(10, 148);
  await bench.act('one', { kind: 'pass start', pass: '1', passKind: 'root', welder: 'Bo' });
  await bench.act('one', { kind: 'pass end', pass: '1' });
  bench.restart({ awayMilliseconds: 40 * 60_000 });
  bench.hello('b1');
  bench.seconds(10, 148);
  const now = () => bench.pipeline.run('one')!.assessment;
  const answer = async (index = 0): Promise<void> => {
    const { inputs, done } = fold.waiting.splice(index, 1)[0]!;
    const inRecord = { [Symbol.iterator]: () => firstOf(bench.record.inputs('one'), inputs)[Symbol.iterator]() };
    done(structuredClone(judgeAll(inRecord).judge.memory()));
    await new Promise((resolve) => setImmediate(resolve));
    bench.clock.move(200);
  };
  const scans = () => [...bench.record.inputs('one')].filter(({ type }) => type === 'scan').length;
  const isCold = () => now().findings.some(({ kind }) => kind === 'below minimum at pass start');
  return { bench, now, answer, scans, isCold };
}

it('readings are committed and the old judgement stands while it is folded; then it is that of the whole record', async () => {
  const fold = folder();
  const { bench, now, answer, scans, isCold } = await cold(fold);
  await bench.act('one', calibration(5));
  expect(fold.waiting).toHaveLength(1);
  const before = scans();
  bench.seconds(20, 148);
  expect(scans() - before).toBe(20);
  expect(isCold()).toBe(true);
  expect(now().coldest?.temperature).toBe(148_000);

  await answer();
  expect(isCold()).toBe(false);
  expect(now().coldest?.temperature).toBe(153_000);
  const live = now();
  expect(judgeAll(bench.record.inputs('one'), live.at).assessment).toEqual(live);

  // It goes on as if it had always been so: what comes late is still put in its place, and a restart says the same.
  const at = bench.pipeline.now();
  await bench.act('one', { kind: 'heat', state: 'off', happenedAt: at - 60_000 });
  bench.seconds(2, 148);
  const later = now();
  expect(judgeAll(bench.record.inputs('one'), later.at).assessment).toEqual(later);
});

it('another that reaches back while it is folded: the last one asked for counts, and both are in it', async () => {
  const fold = folder();
  const { bench, now, answer } = await cold(fold);
  await bench.act('one', calibration(5));
  await bench.act('one', calibration(-5, 2));
  expect(fold.waiting).toHaveLength(2);
  await answer();
  expect(now().coldest?.temperature).toBe(148_000);
  await answer();
  expect(now().coldest?.temperature).toBe(143_000);
  const live = now();
  expect(judgeAll(bench.record.inputs('one'), live.at).assessment).toEqual(live);
});

it('a joint is not closed while an entry waits to be judged', async () => {
  const fold = folder();
  const { bench, now, answer } = await cold(fold);
  await bench.act('one', calibration(5));
  await expect(bench.act('one', { kind: 'close' })).rejects.toMatchObject({ problems: [{ found: 'close' }] });
  await answer();
  await bench.act('one', { kind: 'close' });
  expect(now().phase).toBe('closed');
});

it('where it cannot be folded beside, it is folded on the trip', async () => {
  const fold = folder();
  const { bench, isCold } = await cold(fold);
  await bench.act('one', calibration(5));
  fold.waiting[0]!.failed(new Error('the errand was broken off'));
  await new Promise((resolve) => setImmediate(resolve));
  bench.clock.move(200);
  expect(isCold()).toBe(false);
});

it('an errand folds the same in a thread of its own, over the record on the disk', async () => {
  let errands: Errands | undefined;
  const asked: Promise<JudgeMemory>[] = [];
  const bench = pipelineBench(undefined, (id, inputs) => {
    const memory = errands!.run({ kind: 'fold anew', joint: id, inputs });
    asked.push(memory);
    return memory;
  });
  errands = createErrands(bench.folder);
  onTestFinished(() => errands!.close());
  bench.hello('b1');
  await bench.open(joint);
  bench.seconds(10, 148);
  bench.restart({ awayMilliseconds: 40 * 60_000 });
  bench.hello('b1');
  bench.seconds(60, 148);
  await bench.act('one', calibration(5));
  bench.seconds(5, 148);
  expect(bench.pipeline.run('one')!.assessment.coldest?.temperature).toBe(148_000);
  await asked[0];
  await new Promise((resolve) => setImmediate(resolve));
  bench.clock.move(200);
  const live = bench.pipeline.run('one')!.assessment;
  expect(live.coldest?.temperature).toBe(153_000);
  expect(judgeAll(bench.record.inputs('one'), live.at).assessment).toEqual(live);
});

it('a pass that is put right is folded beside the trip too, and its old judgement stays to be seen', async () => {
  const fold = folder();
  const { bench, now, answer, isCold } = await cold(fold);
  await bench.act('one', { kind: 'correct pass', pass: '1', struck: true, reason: 'never welded' });
  expect(fold.waiting).toHaveLength(1);
  expect(isCold()).toBe(true);
  await answer();
  expect(isCold()).toBe(false);
  expect(now().passes).toEqual([]);
  expect(now().struckPasses![0]!.corrections[0]).toMatchObject({
    reason: 'never welded',
    judged: { minimum: 'not met' },
  });
  const kinds = [...bench.record.inputs('one')].flatMap((input) => (input.type === 'act' ? [input.act.kind] : []));
  expect(kinds).toEqual(['pass start', 'pass end', 'correct pass']);
});
