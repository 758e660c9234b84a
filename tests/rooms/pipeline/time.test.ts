/** A station that starts again goes on where it was, and a wall clock that steps neither stops time nor makes it up. */
import { describe, expect, it } from 'vitest';
import { judgeAll } from '../../../server/judgement/judge.ts';
import { arrival } from '../../../server/weld/entry.ts';
import { jointOn, type PipelineBench, pipelineBench } from '../../support/pipeline-bench.ts';

const assessment = (bench: PipelineBench) => bench.pipeline.run('one')!.assessment;
const inputs = (bench: PipelineBench) => [...bench.record.inputs('one')];
const measuredAt = (bench: PipelineBench) =>
  inputs(bench).flatMap((input) => (input.type === 'scan' ? [input.scan.measuredAt] : []));

/** A short job with a fault and a pass in it; `cut` is called at each second. */
async function job(bench: PipelineBench, cut: (second: number) => void): Promise<void> {
  bench.hello('b1');
  await bench.open(jointOn('one', 'b1'));
  for (let second = 0; second < 40; second += 1) {
    bench.sample('b1', [140 + second, second > 20 && second < 30 ? undefined : 141 + second]);
    if (second === 15) await bench.act('one', pass('start'));
    else bench.clock.move(100);
    if (second === 33) bench.pipeline.act('one', { who: { name: 'Ada' }, act: pass('end') }).catch(() => {});
    bench.clock.move(900);
    cut(second);
  }
}
const pass = (what: 'start' | 'end') =>
  what === 'start'
    ? ({ kind: 'pass start', pass: '1', passKind: 'root', welder: 'Bo' } as const)
    : ({ kind: 'pass end', pass: '1' } as const);

describe('a station that starts again', () => {
  it('judges as if it had never stopped, wherever it was cut', async () => {
    const whole = pipelineBench();
    await job(whole, () => {});
    for (const cuts of [[3], [14, 15, 16], [22], [31, 35]]) {
      const cut = pipelineBench();
      await job(cut, (second) => {
        if (!cuts.includes(second)) return;
        cut.restart();
        cut.hello('b1');
      });
      expect({ ...assessment(cut), at: 0 }, `cut at ${cuts}`).toEqual({ ...assessment(whole), at: 0 });
    }
    expect(assessment(whole).findings.map((each) => each.kind)).toEqual(['ambient check not made', 'open circuit']);
    expect(assessment(whole).passes).toHaveLength(1);
  });

  it('says on the same folder what it said before, and writes no conclusion a second time', async () => {
    const bench = pipelineBench();
    await job(bench, () => {});
    const before = assessment(bench);
    const conclusions = [...bench.record.conclusions('one')].length;
    bench.restart();
    expect({ ...assessment(bench), at: before.at }).toEqual(before);
    expect([...bench.record.conclusions('one')]).toHaveLength(conclusions);
    expect(judgeAll(bench.record.inputs('one')).assessment).toEqual(assessment(bench));
  });

  it('goes on with the clock of a board that ran on meanwhile', async () => {
    const bench = pipelineBench();
    bench.hello('b1');
    await bench.open(jointOn('one', 'b1'));
    bench.seconds(5, 160);
    bench.restart({ awayMilliseconds: 7000 });
    bench.hello('b1');
    bench.seconds(5, 160);
    const at = measuredAt(bench);
    expect(at.slice(1).map((each, index) => each - at[index]!)).toEqual([
      1000, 1000, 1000, 1000, 8000, 1000, 1000, 1000, 1000,
    ]);
    expect(assessment(bench).ready).toBe(true);
    expect(assessment(bench).findings.map((each) => each.kind)).toEqual(['silent', 'silent']);
  });

  it('with its clock set back meanwhile goes on from the newest entry, never before it', async () => {
    const bench = pipelineBench();
    bench.hello('b1');
    await bench.open(jointOn('one', 'b1'));
    bench.seconds(5, 160);
    bench.clock.step(-3_600_000);
    bench.restart();
    bench.hello('b1');
    bench.seconds(5, 160);
    const arrivals = inputs(bench).map(arrival);
    expect(arrivals).toEqual(arrivals.toSorted((a, b) => a - b));
    expect(arrivals.at(-1)! - arrivals[0]!).toBeGreaterThanOrEqual(8000);
    expect(assessment(bench).ready).toBe(true);
  });
});

describe('a computer that sleeps', () => {
  const stood = (bench: PipelineBench) =>
    inputs(bench).flatMap((input) =>
      input.type === 'station' && (input.event.kind === 'suspended' || input.event.kind === 'clock')
        ? [`${input.event.kind} ${'milliseconds' in input.event ? input.event.milliseconds : ''}`]
        : [],
    );

  it.each(['sleep', 'stall'] as const)('names the gap as its own, no step of the clock: %s', async (how) => {
    const bench = pipelineBench();
    bench.hello('b1');
    await bench.open(jointOn('one', 'b1'));
    bench.seconds(5, 160);
    bench.clock[how](480_000);
    bench.hello('b1');
    bench.seconds(6, 160);
    expect(stood(bench)).toEqual([expect.stringMatching(/^suspended 4(80|79|81)\d\d\d$/)]);
    expect(bench.pipeline.now()).toBe(bench.clock.wall());
    const at = measuredAt(bench);
    expect(at).toEqual(at.toSorted((a, b) => a - b));
    expect(Math.max(...at) - Math.min(...at)).toBeGreaterThanOrEqual(480_000);
  });

  it('and one whose clock is set while it sleeps has both named', async () => {
    const bench = pipelineBench();
    bench.hello('b1');
    await bench.open(jointOn('one', 'b1'));
    bench.seconds(5, 160);
    bench.clock.sleep(60_000);
    bench.clock.step(3_600_000);
    bench.seconds(6, 160);
    expect(stood(bench)).toEqual(['suspended 60000', 'clock ']);
  });

  it('a disk that refuses for a minute is no sleep', async () => {
    const bench = pipelineBench();
    bench.hello('b1');
    await bench.open(jointOn('one', 'b1'));
    bench.seconds(5, 160);
    bench.refuse = 'full';
    bench.seconds(60, 160);
    bench.refuse = undefined;
    bench.seconds(6, 160);
    expect(stood(bench)).toEqual([]);
  });
});

describe('a wall clock that steps', () => {
  const clockEntries = (bench: PipelineBench) =>
    inputs(bench).flatMap((input) =>
      input.type === 'station' && input.event.kind === 'clock' ? [input.event.steppedMilliseconds] : [],
    );

  it('back by an hour is an entry; time goes on, readings stay fresh while they come and no longer', async () => {
    const bench = pipelineBench();
    bench.hello('b1');
    await bench.open(jointOn('one', 'b1'));
    bench.seconds(5, 160);
    const before = bench.pipeline.now();
    bench.clock.step(-3_600_000);
    bench.seconds(5, 160);
    expect(clockEntries(bench)).toEqual([-3_600_000]);
    expect(bench.pipeline.now() - before).toBe(5000);
    expect(assessment(bench)).toMatchObject({ ready: true, findings: [] });
    bench.clock.move(5000);
    expect(assessment(bench).ready).toBe(false);
    expect(assessment(bench).findings.map((each) => each.kind)).toEqual(['silent', 'silent']);
  });

  it('forward by an hour is an entry and a gap, and what comes after it is fresh again', async () => {
    const bench = pipelineBench();
    bench.hello('b1');
    await bench.open(jointOn('one', 'b1'));
    bench.seconds(5, 160);
    bench.clock.step(3_600_000);
    bench.seconds(6, 160);
    expect(clockEntries(bench)).toEqual([3_600_000]);
    expect(bench.pipeline.now()).toBe(bench.clock.wall());
    expect(assessment(bench)).toMatchObject({ ready: true });
    const at = measuredAt(bench);
    expect(at).toEqual(at.toSorted((a, b) => a - b));
    expect(Math.max(...at) - Math.min(...at)).toBeGreaterThan(3_600_000);
  });

  it('that drifts by a little each second is no step', async () => {
    const bench = pipelineBench();
    bench.hello('b1');
    await bench.open(jointOn('one', 'b1'));
    for (let second = 0; second < 300; second += 1) {
      bench.clock.step(5);
      bench.seconds(1, 160);
    }
    expect(clockEntries(bench)).toEqual([]);
    expect(assessment(bench)).toMatchObject({ ready: true, findings: [] });
  });
});
