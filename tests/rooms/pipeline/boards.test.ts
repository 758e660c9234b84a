/** Joints on boards: who gets which reading, where the temperatures come from, and a board that starts again. */
import { describe, expect, it } from 'vitest';
import type { Scan } from '../../../server/weld/scan.ts';
import { linkEventText } from '../../../server/wording/link-event.ts';
import { jointOn, type PipelineBench, pipelineBench, probeOn } from '../../support/pipeline-bench.ts';
import { plainJoint, plainProcedure } from '../../support/plain-joint.ts';

const scansOf = (bench: PipelineBench, joint: string): Scan[] =>
  [...bench.record.inputs(joint)].flatMap((input) => (input.type === 'scan' ? [input.scan] : []));
const events = (bench: PipelineBench, joint: string): string[] =>
  [...bench.record.inputs(joint)].flatMap((input) => (input.type === 'station' ? [input.event.kind] : []));
const sourceOf = (bench: PipelineBench, joint: string) => bench.pipeline.run(joint)!.assessment.source;

describe('boards and joints', () => {
  it('two joints on one board each get their own probes of every sample', async () => {
    const bench = pipelineBench();
    bench.hello('b1');
    const on = (id: string, channel: number) =>
      plainJoint({ id, procedure: plainProcedure, probes: [probeOn('b1', channel)] });
    await bench.open(on('one', 1));
    await bench.open(on('two', 2));
    bench.sample('b1', [100, 200]);
    bench.clock.move(1000);
    expect(scansOf(bench, 'one').map(({ values }) => values)).toMatchObject([
      [{ probe: 'b1-1', quality: 'good', temperature: 100_000 }],
    ]);
    expect(scansOf(bench, 'two').map(({ values }) => values)).toMatchObject([
      [{ probe: 'b1-2', quality: 'good', temperature: 200_000 }],
    ]);
    expect(scansOf(bench, 'one')[0]!.measuredAt).toBe(scansOf(bench, 'two')[0]!.measuredAt);
  });

  it('one probe serves two joints: each judges it by its own limits, and doubt about it in one is no doubt in the other', async () => {
    const bench = pipelineBench();
    bench.hello('b1');
    const on = (id: string, preheatMinimumCelsius: number) =>
      plainJoint({ id, procedure: { ...plainProcedure, preheatMinimumCelsius }, probes: [probeOn('b1', 1)] });
    await bench.open(on('one', 150));
    await bench.open(on('two', 170));
    bench.seconds(5, 160);
    const reached = (joint: string) =>
      bench.pipeline.run(joint)!.assessment.conditions.find(({ id }) => id === 'minimum reached')?.state;
    expect([reached('one'), reached('two')]).toEqual(['met', 'not met']);
    const doubt = { kind: 'distrust probe', probe: 'b1-1', reason: 'loose there' } as const;
    void bench.pipeline.act('one', { who: { name: 'Ada' }, act: doubt });
    bench.seconds(5, 175);
    expect([reached('one'), reached('two')]).toEqual(['not judged', 'met']);
    expect(scansOf(bench, 'one').map(({ measuredAt }) => measuredAt)).toEqual(
      scansOf(bench, 'two').map(({ measuredAt }) => measuredAt),
    );
  });

  it('a joint on two boards is ready only with both, and not judged at the places of the one that is gone', async () => {
    const bench = pipelineBench();
    bench.hello('b1');
    bench.hello('b2');
    await bench.open(jointOn('one', 'b1', 'b2'));
    bench.seconds(5, 160);
    expect(bench.pipeline.run('one')!.assessment).toMatchObject({ ready: true, phase: 'ready' });
    bench.link('b2', 'lost', 'port-of-b2');
    for (let second = 0; second < 5; second += 1) {
      bench.sample('b1', [160, 160]);
      bench.clock.move(1000);
    }
    const { ready, conditions, findings } = bench.pipeline.run('one')!.assessment;
    expect(ready).toBe(false);
    expect(conditions.find((each) => each.id === 'minimum reached')).toMatchObject({
      state: 'not judged',
      missing: ['b2-1', 'b2-2'],
    });
    expect(findings.map(({ kind, probe }) => `${kind} ${probe}`)).toEqual(['silent b2-1', 'silent b2-2']);
    expect(events(bench, 'one').filter((kind) => kind === 'link')).toHaveLength(1);
  });

  it('takes no sample of a board that is on no joint, and none of a board that has not said hello', async () => {
    const bench = pipelineBench();
    bench.hello('b1');
    await bench.open(jointOn('one', 'b2'));
    bench.seconds(3, 160);
    expect(scansOf(bench, 'one')).toEqual([]);
    const position = bench.record.position();
    bench.seconds(3, 160);
    expect(bench.record.position()).toBe(position);
  });

  it('a board that starts again mid-job is an entry, and time goes on from one start to the next', async () => {
    const bench = pipelineBench();
    bench.hello('b1');
    await bench.open(jointOn('one', 'b1'));
    bench.seconds(5, 160);
    bench.clock.move(1500);
    bench.hello('b1', { boot: 2 });
    bench.seconds(5, 160);
    const scans = scansOf(bench, 'one');
    expect(scans.map(({ boot, sequence }) => `${boot}.${sequence}`)).toEqual([
      ...[1, 2, 3, 4, 5].map((n) => `1.${n}`),
      ...[1, 2, 3, 4, 5].map((n) => `2.${n}`),
    ]);
    const steps = scans.slice(1).map((scan, index) => scan.measuredAt - scans[index]!.measuredAt);
    expect(steps).toEqual([1000, 1000, 1000, 1000, 2500, 1000, 1000, 1000, 1000]);
    const boots = [...bench.record.inputs('one')].flatMap((input) =>
      input.type === 'station' && input.event.kind === 'board' ? [input.event.boot] : [],
    );
    expect(boots).toEqual([1, 2]);
    expect(bench.pipeline.run('one')!.assessment.ready).toBe(true);
  });

  it('a board that is moved to another port is an entry that says so, also over a restart of the station', async () => {
    const bench = pipelineBench();
    bench.hello('b1');
    await bench.open(jointOn('one', 'b1'));
    bench.seconds(3, 160);
    bench.hello('b1', {}, 'second port');
    bench.seconds(3, 160);
    bench.restart();
    bench.hello('b1', {}, 'third port');
    bench.seconds(3, 160);
    const ports = [...bench.record.inputs('one')].flatMap((input) =>
      input.type === 'station' && input.event.kind === 'board' ? [linkEventText(input.event)] : [],
    );
    expect(ports[1]).toBe(
      'Board b1 was moved from port-of-b1 to second port and goes on there, firmware test-1, boot 1',
    );
    expect(ports[2]).toContain('was moved from second port to third port');
    expect(bench.pipeline.run('one')!.assessment.ready).toBe(true);
  });

  it('a second board with the identity of the first is an entry that says which was read', async () => {
    const bench = pipelineBench();
    bench.hello('b1');
    await bench.open(jointOn('one', 'b1'));
    bench.pipeline.wire({ type: 'twin', port: 'B', board: 'b1', heldOn: 'A', arrivedAt: bench.clock.wall() });
    bench.seconds(1, 160);
    const told = [...bench.record.inputs('one')].flatMap((input) =>
      input.type === 'station' && input.event.kind === 'twin' ? [linkEventText(input.event)] : [],
    );
    expect(told).toEqual([
      'Two boards say that they are b1: the one on A is read, the one on B is not. See that the right one is read',
    ]);
  });

  it('a period that a board changes is an entry, and readings stay fresh by the new one', async () => {
    const bench = pipelineBench();
    bench.hello('b1');
    await bench.open(jointOn('one', 'b1'));
    bench.seconds(5, 160);
    bench.hello('b1', { periodMilliseconds: 5000 });
    bench.sample('b1', [160, 160]);
    bench.clock.move(5000);
    bench.sample('b1', [160, 160]);
    bench.clock.move(5000);
    const { ready, findings } = bench.pipeline.run('one')!.assessment;
    expect(events(bench, 'one').filter((kind) => kind === 'period')).toHaveLength(2);
    expect(findings).toEqual([]);
    expect(ready).toBe(true);
  });
});

describe('the source of a joint', () => {
  const open = async (hello: { simulated?: boolean }, identity?: { verified: boolean; detail: string }) => {
    const bench = pipelineBench();
    if (identity !== undefined) bench.pipeline.portIdentified('port-of-b1', identity);
    bench.hello('b1', hello);
    bench.clock.move(1000);
    await bench.open(jointOn('one', 'b1'));
    bench.seconds(1, 20);
    return bench;
  };
  const hardware = { verified: true, detail: 'a serial adapter' };

  it('is measured behind a port with a hardware identity', async () => {
    const bench = await open({}, hardware);
    expect(sourceOf(bench, 'one').kind).toBe('measured');
    expect([...bench.record.entries('one')][0]).toMatchObject({
      kind: 'opened',
      body: { source: { kind: 'measured' } },
    });
  });

  it('is not verified behind any other port, and by a word of a named person measured', async () => {
    const bench = await open({}, { verified: false, detail: 'a pseudo-terminal' });
    expect(sourceOf(bench, 'one')).toMatchObject({
      kind: 'not verified',
      detail: expect.stringContaining('pseudo-terminal'),
    });
    await bench.act('one', { kind: 'declare source', statement: 'I wired this board myself' }, 'Ada');
    bench.clock.move(1000);
    expect(sourceOf(bench, 'one')).toEqual({
      kind: 'measured',
      detail: expect.stringContaining('Ada: I wired this board myself'),
    });
    bench.hello('b1');
    bench.pipeline.portIdentified('port-of-b1', { verified: false, detail: 'a pseudo-terminal again' });
    bench.seconds(1, 20);
    expect(sourceOf(bench, 'one').kind).toBe('measured');
  });

  it('is simulated where a board says so, whatever the port, and no word lifts that', async () => {
    const bench = await open({ simulated: true }, hardware);
    expect(sourceOf(bench, 'one').kind).toBe('simulated');
    await bench.act('one', { kind: 'declare source', statement: 'it is real' });
    bench.clock.move(1000);
    expect(sourceOf(bench, 'one').kind).toBe('simulated');
  });

  it('stays simulated once it was, though another board takes the place, here and after a restart', async () => {
    const bench = await open({ simulated: true }, hardware);
    bench.hello('b1', { simulated: false, boot: 2 });
    bench.seconds(2, 20);
    expect(sourceOf(bench, 'one').kind).toBe('simulated');
    bench.restart();
    bench.pipeline.portIdentified('port-of-b1', hardware);
    bench.hello('b1', { simulated: false, boot: 3 });
    bench.seconds(2, 20);
    expect(sourceOf(bench, 'one').kind).toBe('simulated');
  });

  it('becomes simulated when a board that says so comes later, even over the word of a person', async () => {
    const bench = await open({});
    await bench.act('one', { kind: 'declare source', statement: 'I wired this board myself' });
    bench.hello('b1', { simulated: true, boot: 2 });
    bench.seconds(1, 20);
    expect(sourceOf(bench, 'one').kind).toBe('simulated');
  });

  it('is as doubtful as the most doubtful of two boards', async () => {
    const bench = pipelineBench();
    bench.pipeline.portIdentified('port-of-b1', hardware);
    bench.hello('b1');
    bench.hello('b2');
    bench.clock.move(1000);
    await bench.open(jointOn('one', 'b1', 'b2'));
    expect(sourceOf(bench, 'one').kind).toBe('not verified');
    bench.pipeline.portIdentified('port-of-b2', hardware);
    bench.clock.move(1000);
    expect(sourceOf(bench, 'one').kind).toBe('measured');
  });

  it('is not verified while no board has been heard', async () => {
    const bench = pipelineBench();
    await bench.open(jointOn('one', 'b1'));
    expect(sourceOf(bench, 'one').kind).toBe('not verified');
  });
});
