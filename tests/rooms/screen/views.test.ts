/** What a screen asks for once: a view of the history that hides neither peak nor gap, and the joints as they stand. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { HistoryView } from '../../../server/measure/history.ts';
import { limits } from '../../../server/measure/limits.ts';
import { thin } from '../../../server/record/thin.ts';
import type {
  AlarmEvent,
  JointState,
  JointsView,
  StationView,
  TimelineEvent,
} from '../../../server/screen/contract.ts';
import { httpBench } from '../../support/http-bench.ts';
import { jointOn } from '../../support/pipeline-bench.ts';
import { at, scan, value } from '../../support/record.ts';

describe('a thinned view', () => {
  const options = { probes: ['A1'], from: at(0), points: 7, periodMilliseconds: 1000 };
  const numbersOf = (view: HistoryView): number[] =>
    view.series[0]!.steps.flatMap(([, ...numbers]) => numbers.filter((each): each is number => each !== null));

  it('keeps the extremes, the first and the last of every step, and draws no line over what was bad or missing', () => {
    const reading = fc.oneof(
      { weight: 8, arbitrary: fc.integer({ min: -20_000, max: 900_000 }) },
      { weight: 1, arbitrary: fc.constant('open' as const) },
      { weight: 1, arbitrary: fc.constant('nothing' as const) },
    );
    fc.assert(
      fc.property(fc.array(reading, { minLength: 1, maxLength: 200 }), (readings) => {
        const scans = readings.flatMap((each, n) =>
          each === 'nothing'
            ? []
            : [
                scan(n, {
                  measuredAt: at(n * 1000),
                  values: [
                    each === 'open' ? { probe: 'A1', quality: 'open', raw: { form: 'none' } } : value('A1', each),
                  ],
                }),
              ],
        );
        const view = thin(scans, { ...options, to: at(readings.length * 1000) });
        const { stepMilliseconds, series } = view;
        const steps = series[0]!.steps;
        const good = readings.flatMap((each, n) => (typeof each === 'number' ? [{ at: at(n * 1000), each }] : []));
        const kept = new Set(numbersOf(view));
        for (const { each } of good) expect(each >= Math.min(...kept) && each <= Math.max(...kept)).toBe(true);
        const byStep = new Map<number, typeof good>();
        for (const each of good) {
          const index = Math.floor((each.at - at(0)) / stepMilliseconds);
          byStep.set(index, [...(byStep.get(index) ?? []), each]);
        }
        for (const [index, group] of byStep) {
          const numbers = group.map((each) => each.each);
          const [lowest, highest] = [Math.min(...numbers), Math.max(...numbers)];
          expect(steps).toContainEqual([at(index * stepMilliseconds), numbers[0], lowest, highest, numbers.at(-1)]);
        }
        const ats = steps.map(([when]) => when);
        expect(ats).toEqual(ats.toSorted((a, b) => a - b));
        for (const [n, each] of readings.entries()) {
          if (typeof each === 'number') continue;
          const index = Math.floor((n * 1000) / stepMilliseconds);
          const isBefore = (when: number) => when < at((index + 1) * stepMilliseconds);
          const inStep = steps.filter(([when]) => isBefore(when) && when >= at(index * stepMilliseconds));
          // One reading that is missing in a step that has others is no gap; a bad one is, and a step without any.
          if (each === 'nothing' && byStep.has(index)) continue;
          if (good.length === 0 || n * 1000 > good.at(-1)!.at - at(0)) continue;
          if (each === 'nothing' && n * 1000 < good[0]!.at - at(0)) continue;
          const shown = inStep.length > 0 ? inStep : steps.filter(([when]) => isBefore(when)).slice(-1);
          expect(shown.some(([, none]) => none === null)).toBe(true);
        }
      }),
      { seed: 20_260_302, numRuns: 300 },
    );
  });

  it('has no more steps than were asked for', () => {
    const scans = Array.from({ length: 5000 }, (_, n) => scan(n, { measuredAt: at(n * 1000) }));
    const { series } = thin(scans, { ...options, to: at(5_000_000), points: 100 });
    expect(series[0]!.steps.length).toBeLessThanOrEqual(101);
  });
});

describe('the views over HTTP', () => {
  const running = async () => {
    const http = await httpBench();
    http.bench.hello('b1');
    const opening = http.bench.pipeline.open(jointOn('one', 'b1'), 'Ada');
    http.bench.clock.move(100);
    await opening;
    return http;
  };
  const json = async <T>(answer: Response): Promise<T> => (await answer.json()) as T;

  it('give the whole history thinned, with a peak of one reading and a gap of twenty seconds in it', async () => {
    const http = await running();
    http.bench.seconds(100, 100);
    http.bench.seconds(1, 345.67);
    http.bench.seconds(100, 100);
    http.bench.clock.move(20_000);
    http.bench.seconds(50, 100);
    const view = await json<HistoryView>(await http.ask('/api/joints/one/history?points=20'));
    expect(view.series.map((each) => each.probe)).toEqual(['b1-1', 'b1-2']);
    for (const { steps } of view.series) {
      expect(steps.length).toBeLessThanOrEqual(22);
      expect(Math.max(...steps.flatMap(([, , , maximum]) => maximum ?? 0))).toBe(345_670);
      expect(steps.filter(([, none]) => none === null)).toHaveLength(1);
    }
    const part = await json<HistoryView>(
      await http.ask(`/api/joints/one/history?from=${view.from}&to=${view.from + 50_000}&points=2000`),
    );
    expect(part.series[0]!.steps).toHaveLength(50_000 / part.stepMilliseconds);
    expect(part.stepMilliseconds).toBe(2000);
  });

  it('refuse a span that is no number, and give no more points than the bound', async () => {
    const http = await running();
    for (const query of ['from=yesterday', 'to=1e3', 'points=0', 'points=-1', 'points=x']) {
      const answer = await http.ask(`/api/joints/one/history?${query}`);
      expect(answer.status, query).toBe(422);
      expect(await answer.json()).toMatchObject({ problems: [{ field: 'from, to, points' }] });
    }
    http.bench.seconds(3, 20);
    const wide = await json<HistoryView>(
      await http.ask('/api/joints/one/history?from=0&to=9999999999999&points=99999999'),
    );
    expect(wide.stepMilliseconds).toBeGreaterThanOrEqual(9_999_999_999_999 / limits.historyPointsMaximum);
  });

  it('give the station, its joints, one joint and its time line', async () => {
    const http = await running();
    http.bench.seconds(5, 160);
    const acting = http.bench.pipeline.act('one', { who: { name: 'Bo' }, act: { kind: 'note', text: 'begin' } });
    http.bench.clock.move(1000);
    await acting;
    expect(await json<StationView>(await http.ask('/api/station'))).toMatchObject({
      recording: true,
      now: http.bench.pipeline.now(),
    });
    expect(await json<JointsView>(await http.ask('/api/joints'))).toMatchObject({
      open: [{ id: 'one', title: 'Plain joint', assessment: { phase: 'ready', ready: true } }],
      closed: [],
    });
    const state = await json<JointState>(await http.ask('/api/joints/one'));
    const head = http.bench.record.head('one');
    expect(state).toMatchObject({ joint: { id: 'one' }, position: head.position, headHash: head.hash });
    const timeline = await json<TimelineEvent[]>(await http.ask('/api/joints/one/timeline'));
    expect(timeline.map(({ kind, who }) => `${kind} ${who}`)).toEqual([
      'opened Ada',
      'board station',
      'period station',
      'note Bo',
    ]);
  });

  it('give each change of an alarm as it was recorded', async () => {
    const http = await running();
    http.bench.seconds(5, 160);
    http.bench.clock.move(30_000);
    const alarms = await json<AlarmEvent[]>(await http.ask('/api/joints/one/alarms'));
    const rang = alarms.find(({ alarm }) => alarm.kind === 'board silent');
    expect(rang).toMatchObject({ change: 'changed', alarm: { state: 'active', board: 'b1' } });
    expect(rang!.alarm.announcedAt).toBeDefined();
  });

  it('say that nothing is recorded, and why', async () => {
    const http = await running();
    http.bench.refuse = 'database or disk is full';
    http.bench.seconds(2, 20);
    expect(await json<StationView>(await http.ask('/api/station'))).toMatchObject({
      recording: false,
      notRecordingBecause: 'database or disk is full',
    });
  });

  it('answer 404 for a joint that is not there, on every address, and for the chain of the station itself', async () => {
    const http = await running();
    for (const id of ['two', 'station', '..%2fstation']) {
      for (const rest of [
        '',
        '/history',
        '/timeline',
        '/alarms',
        '/report.pdf',
        '/working.pdf',
        '/card.pdf',
        '/readings.csv',
        '/passes.csv',
        '/documents/x',
      ]) {
        expect((await http.ask(`/api/joints/${id}${rest}`)).status, id + rest).toBe(404);
      }
    }
  });

  it('give the two papers of a joint as PDF, each under a name of its own', async () => {
    const http = await running();
    for (const paper of ['working', 'card']) {
      const response = await http.ask(`/api/joints/one/${paper}.pdf`);
      expect(response.headers.get('content-type')).toBe('application/pdf');
      expect(response.headers.get('content-disposition')).toBe(`inline; filename="one-${paper}.pdf"`);
      expect(
        Buffer.from(await response.arrayBuffer())
          .subarray(0, 5)
          .toString(),
      ).toBe('%PDF-');
    }
  });

  it('give a closed joint as it was judged at its end', async () => {
    const http = await running();
    http.bench.seconds(5, 160);
    const closing = http.bench.pipeline.act('one', { who: { name: 'Bo' }, act: { kind: 'close' } });
    http.bench.clock.move(1000);
    await closing;
    const { assessment } = http.bench.pipeline.run('one')!;
    http.bench.restart();
    expect(http.bench.pipeline.run('one')).toBeUndefined();
    const again = await httpBench([], http.bench);
    const state = await json<JointState>(await again.ask('/api/joints/one'));
    expect(state.assessment).toEqual(JSON.parse(JSON.stringify({ ...assessment, at: state.assessment.at })));
    const passes = await again.ask('/api/joints/one/passes.csv?zone=Nowhere%2FAt_all');
    expect(passes.headers.get('content-disposition')).toBe('attachment; filename="one-passes.csv"');
    expect(await passes.text()).toMatch(/^source,station,joint,time_zone,pass,kind,/);
    const csv = await (await again.ask('/api/joints/one/readings.csv?zone=Nowhere%2FAt_all')).text();
    expect(csv.split('\n').filter((line) => line.includes('b1-1'))).not.toEqual([]);
  });
});
