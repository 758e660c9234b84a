/** Order, grouping and the word "recorded": nothing is told before it is kept, and what is refused is not lost. */
import { describe, expect, it } from 'vitest';
import { NotRecording, Refusal } from '../../../server/desk/refusal.ts';
import type { Item } from '../../../server/ledger/item.ts';
import { limits } from '../../../server/measure/limits.ts';
import { group, jointOn, pipelineBench } from '../../support/pipeline-bench.ts';

const kinds = (items: readonly Item[]): string[] =>
  items.map((item) =>
    item.type === 'scan' ? `${item.chain} scan ${item.scan.sequence}` : `${item.chain} ${item.kind}`,
  );

const failureOf = (answer: Promise<unknown>): Promise<unknown> =>
  answer.then(
    () => undefined,
    (cause: unknown) => cause,
  );

describe('the pipeline', () => {
  it('commits what came within 100 ms together, in the order in which it came', async () => {
    const bench = pipelineBench();
    bench.hello('b1');
    await bench.open(jointOn('one', 'b1'));
    bench.commits.length = 0;
    bench.sample('b1', [20, 20]);
    const answer = bench.pipeline.act('one', { who: { name: 'Ada' }, act: { kind: 'note', text: 'first' } });
    bench.clock.move(group - 1);
    expect(bench.commits).toEqual([]);
    bench.sample('b1', [21, 21]);
    bench.clock.move(1);
    expect(bench.commits).toHaveLength(1);
    expect(kinds(bench.commits[0]!).slice(0, 3)).toEqual(['one scan 1', 'one note', 'one scan 2']);
    const position = await answer;
    expect(bench.record.after(position - 1, { limit: 1 })[0]).toMatchObject({ kind: 'note', who: 'Ada' });
  });

  it('tells a step only with what the record holds by then', async () => {
    const bench = pipelineBench();
    bench.pipeline.onStep(({ items, position }) => {
      expect(bench.record.position()).toBeGreaterThanOrEqual(position);
      for (const item of items) {
        expect(bench.record.after(item.position - 1, { chain: item.chain, limit: 1 })).toEqual([item]);
      }
    });
    bench.hello('b1');
    await bench.open(jointOn('one', 'b1'));
    bench.seconds(5, 160);
    expect(bench.steps.flatMap((step) => step.items).filter((item) => item.type === 'scan')).toHaveLength(5);
  });

  it('answers an act only once it is committed', async () => {
    const bench = pipelineBench();
    await bench.open(jointOn('one', 'b1'));
    const before = bench.record.position();
    let answered = false;
    const answer = bench.pipeline
      .act('one', { who: { name: 'Ada' }, act: { kind: 'heat', state: 'on' } })
      .then((position) => {
        answered = true;
        return position;
      });
    await Promise.resolve();
    expect(answered).toBe(false);
    expect(bench.record.position()).toBe(before);
    bench.clock.move(group);
    expect(await answer).toBe(before + 1);
  });

  it('refuses a second joint of the same name and an act on a joint that closed in the same moment', async () => {
    const bench = pipelineBench();
    const first = bench.pipeline.open(jointOn('one'), 'Ada');
    const second = failureOf(bench.pipeline.open(jointOn('one'), 'Bo'));
    const closing = bench.pipeline.act('one', { who: { name: 'Ada' }, act: { kind: 'close' } });
    const late = failureOf(bench.pipeline.act('one', { who: { name: 'Bo' }, act: { kind: 'note', text: 'too late' } }));
    const nowhere = failureOf(
      bench.pipeline.act('two', { who: { name: 'Bo' }, act: { kind: 'note', text: 'no such joint' } }),
    );
    bench.clock.move(group);
    await first;
    await closing;
    expect(await second).toBeInstanceOf(Refusal);
    expect(await late).toBeInstanceOf(Refusal);
    expect(await nowhere).toBeInstanceOf(Refusal);
    expect([...bench.record.entries('one')].map((entry) => entry.kind)).toEqual([
      'opened',
      'close',
      'phase',
      'verdict',
    ]);
  });

  it('takes no reading of a joint after its closing', async () => {
    const bench = pipelineBench();
    bench.hello('b1');
    await bench.open(jointOn('one', 'b1'));
    bench.seconds(2, 20);
    const closing = bench.pipeline.act('one', { who: { name: 'Ada' }, act: { kind: 'close' } });
    bench.seconds(3, 20);
    await closing;
    const inputs = [...bench.record.inputs('one')];
    expect(inputs.at(-1)).toMatchObject({ type: 'act', act: { kind: 'close' } });
    expect(inputs.filter((input) => input.type === 'scan')).toHaveLength(2);
  });
});

describe('while the record fails', () => {
  it('nothing is told, acts are refused, and the same batch is committed later, in order', async () => {
    const bench = pipelineBench();
    bench.hello('b1');
    await bench.open(jointOn('one', 'b1'));
    const told: (string | undefined)[] = [];
    bench.pipeline.onRecordingChange(() => told.push(bench.pipeline.notRecordingBecause()));
    bench.steps.length = 0;

    bench.refuse = 'disk I/O error';
    bench.sample('b1', [20, 20]);
    const kept = failureOf(bench.pipeline.act('one', { who: { name: 'Ada' }, act: { kind: 'heat', state: 'on' } }));
    bench.clock.move(group);
    const cause = await kept;
    expect(cause).toBeInstanceOf(NotRecording);
    expect(told).toEqual(['disk I/O error']);
    const refusedBatch = bench.commits.at(-1)!;

    const notKept = await failureOf(
      bench.pipeline.act('one', { who: { name: 'Ada' }, act: { kind: 'note', text: 'nobody heard' } }),
    );
    expect(notKept).toBeInstanceOf(NotRecording);
    expect((notKept as NotRecording).recorded).toBeUndefined();
    bench.seconds(3, 30);
    expect(bench.steps).toEqual([]);
    expect(bench.commits.at(-1)).toBe(refusedBatch);

    bench.refuse = undefined;
    bench.clock.move(1000);
    expect(told).toEqual(['disk I/O error', undefined]);
    const position = await (cause as NotRecording).recorded!;
    expect(bench.record.after(position - 1, { limit: 1 })[0]).toMatchObject({ kind: 'heat', body: { state: 'on' } });
    const inputs = [...bench.record.inputs('one')].slice(-5);
    expect(inputs.map((input) => (input.type === 'scan' ? input.scan.sequence : input.type))).toEqual([
      1,
      'act',
      2,
      3,
      4,
    ]);
    const arrivals = [...bench.record.inputs('one')].map((input) =>
      input.type === 'scan' ? input.scan.arrivedAt : input.at,
    );
    expect(arrivals).toEqual(arrivals.toSorted((a, b) => a - b));
  });

  it('readings are kept up to the bound; what is lost beyond it is counted, in its place in the record', {
    timeout: 120_000,
  }, async () => {
    const bench = pipelineBench();
    bench.hello('b1');
    await bench.open(jointOn('one', 'b1'));
    bench.seconds(1, 20);
    bench.refuse = 'database or disk is full';
    bench.seconds(1, 20);
    const lost = 7;
    const whole = limits.queueMaximum + lost;
    for (let count = 0; count < whole; count += 1) bench.sample('b1', [20 + (count % 50), 20]);
    bench.link('b1', 'lost');
    bench.refuse = undefined;
    bench.clock.move(2000);

    const inputs = [...bench.record.inputs('one')];
    const interrupted = inputs.findIndex(
      (input) => input.type === 'station' && input.event.kind === 'station' && input.event.state === 'not recording',
    );
    // The link's word took the place of one more reading.
    expect(inputs[interrupted]).toMatchObject({ event: { lost: lost + 1 } });
    expect(inputs.filter((input) => input.type === 'scan')).toHaveLength(2 + limits.queueMaximum - 1);
    expect(inputs.at(-1)).toMatchObject({ event: { kind: 'link', state: 'lost' } });
    const arrivals = inputs.map((input) => (input.type === 'scan' ? input.scan.arrivedAt : input.at));
    expect(arrivals).toEqual(arrivals.toSorted((a, b) => a - b));
    for (const items of bench.commits) expect(items.length).toBeLessThanOrEqual(limits.commitItemsMaximum);
    const { findings } = bench.pipeline.run('one')!.assessment;
    expect(findings.map((each) => each.kind)).toContain('recording interrupted');
  });

  it('a queue full of several joints is committed in parts that the record takes', { timeout: 120_000 }, async () => {
    const bench = pipelineBench();
    bench.hello('b1');
    for (const id of ['one', 'two', 'three']) await bench.open(jointOn(id, 'b1'));
    const samples = Math.ceil(limits.commitItemsMaximum / 3) + 1;
    for (let count = 0; count < samples; count += 1) bench.sample('b1', [20, 20]);
    bench.clock.move(group);
    expect(bench.pipeline.notRecordingBecause()).toBeUndefined();
    for (const id of ['one', 'two', 'three']) {
      const scans = [...bench.record.inputs(id)].filter((input) => input.type === 'scan');
      expect(scans).toHaveLength(samples);
    }
  });

  it('a failure to seal is told, and ends with the first sealing that succeeds, with no board in sight', async () => {
    const bench = pipelineBench();
    bench.refuseSealing = 'no space';
    bench.clock.move(1000);
    expect(bench.pipeline.notRecordingBecause()).toBe('no space');
    bench.refuseSealing = undefined;
    bench.clock.move(1000);
    expect(bench.pipeline.notRecordingBecause()).toBeUndefined();
    await bench.open(jointOn('one'));
  });
});
