/** The chart keeps what matters: peaks, gaps, limits, passes, and lines that differ without colour. */
import fc from 'fast-check';
import { describe, expect, it, vi } from 'vitest';
import type { HistoryStep } from '../../../server/measure/history.ts';
import { instant, milliseconds } from '../../../server/measure/quantity.ts';
import { chartModels } from '../../../server/report/chart/chart-model.ts';
import { chartSvg } from '../../../server/report/chart/chart-svg.ts';
import { courseOf } from '../../../server/report/chart/course.ts';
import { detailSpans } from '../../../server/report/chart/detail-spans.ts';
import { lineStyle } from '../../../server/report/chart/line-style.ts';
import { timeTicks } from '../../../server/report/chart/time-axis.ts';
import { valueAxis } from '../../../server/report/chart/value-axis.ts';
import type { RecordedConclusion } from '../../../server/report/facts.ts';
import { escaped, spread } from '../../../server/report/svg.ts';
import { fixtureStart, reportFacts } from '../../support/report-fixture.ts';
import { fixtureJoint, probes } from '../../support/report-joint.ts';

// Judging hours of readings takes a while on a busy machine; nothing here is judged by time.
vi.setConfig({ testTimeout: 60_000 });

const hour = 3_600_000;
const span = (steps: readonly HistoryStep[], step: number) => ({
  from: instant(steps[0]?.[0] ?? 0),
  to: instant((steps.at(-1)?.[0] ?? 0) + step),
});

describe('course', () => {
  it('keeps every extreme and breaks at every gap, however many steps one column holds (law)', () => {
    const value = fc.integer({ min: -50_000, max: 900_000 });
    const step = fc.option(fc.tuple(value, value, value, value), { nil: null, freq: 4 });
    fc.assert(
      fc.property(
        fc.array(step, { minLength: 1, maxLength: 200 }),
        fc.integer({ min: 2, max: 50 }),
        (list, columns) => {
          const steps = list.map((each, index): HistoryStep => {
            if (each === null) return [index * 1000, null];
            const [first, last] = each;
            return [index * 1000, first, Math.min(...each), Math.max(...each), last];
          });
          const course = courseOf(steps, 1000, span(steps, 1000), columns);
          const measured = list.filter((each) => each !== null).flat();
          const drawn = course.runs.flat().map(([, drawnValue]) => drawnValue);
          if (measured.length > 0) {
            expect(Math.min(...drawn)).toBe(Math.min(...measured));
            expect(Math.max(...drawn)).toBe(Math.max(...measured));
          }
          const holes = list.filter((each, index) => each === null && list[index - 1] !== null).length;
          expect(course.gaps.length).toBe(holes);
          for (const gap of course.gaps)
            for (const run of course.runs) expect(run.at(-1)![0] <= gap.from || run[0]![0] >= gap.to).toBe(true);
          for (const run of course.runs)
            run.forEach(([at], index) => {
              if (index > 0) expect(at).toBeGreaterThan(run[index - 1]![0]);
            });
        },
      ),
    );
  });

  it('takes missing steps for gaps as well, at both ends too', () => {
    const steps: HistoryStep[] = [
      [5000, 1, 1, 1, 1],
      [6000, 2, 2, 2, 2],
      [9000, 3, 3, 3, 3],
    ];
    expect(courseOf(steps, 1000, { from: instant(0), to: instant(20_000) }).gaps).toEqual([
      { from: 0, to: 5000 },
      { from: 7000, to: 9000 },
      { from: 10_000, to: 20_000 },
    ]);
  });
});

describe('chart model', () => {
  const facts = reportFacts({ silences: [['PB-0041', 30, 40]] });
  const [model] = chartModels(facts, facts.history.from, facts.history.to);

  it('carries limits, passes, heat and gaps', () => {
    expect(model!.limits.map(({ label }) => label)).toEqual([
      'minimum preheat 150 °C',
      'to be kept in breaks 120 °C',
      'maximum interpass 250 °C',
      'highest anywhere 300 °C',
    ]);
    expect(model!.lanes.passes.map(({ label }) => label)).toEqual(['1', '2', '3']);
    expect(model!.lanes.heat.map(({ label }) => label)).toEqual(['on']);
    for (const line of model!.lines) expect(line.gaps.some(({ from, to }) => to - from >= 600_000)).toBe(true);
  });

  it('never puts more lines in one chart than can be told apart', () => {
    const many = reportFacts({ joint: fixtureJoint({ probes: probes(27, ['A', 'B']) }), hours: 2, periodSeconds: 60 });
    const models = chartModels(many, many.history.from, many.history.to);
    expect(models.flatMap(({ lines }) => lines.map(({ name }) => name)).toSorted()).toEqual(
      many.joint.probes.map(({ id }) => id).toSorted(),
    );
    for (const { lines } of models) {
      expect(lines.length).toBeLessThanOrEqual(8);
      expect(new Set(lines.map(({ style }) => lineStyle(style).dash)).size).toBe(lines.length);
    }
  });

  it('puts passes that run at once in lanes of their own', () => {
    const passes = facts.assessment.passes.slice(0, 2);
    const [both] = chartModels(
      {
        ...facts,
        assessment: {
          ...facts.assessment,
          passes: passes.map((pass) => ({ ...pass, startedAt: passes[0]!.startedAt })),
        },
      },
      facts.history.from,
      facts.history.to,
    );
    expect(both!.lanes.passes.map(({ lane }) => lane)).toEqual([0, 1]);
  });

  it('shows breaks and the alarms that rang beside the passes, each over its time', () => {
    const begun = { from: instant(fixtureStart + 2 * hour), to: instant(fixtureStart + 2.5 * hour) };
    const alarm = (key: string, more: object): RecordedConclusion => ({
      at: begun.from,
      conclusion: {
        kind: 'alarm',
        change: 'changed',
        alarm: { key, kind: 'probe fault', probe: key, state: 'active', since: begun.from, ...more },
      },
    });
    const [told] = chartModels(
      {
        ...facts,
        assessment: {
          ...facts.assessment,
          breaks: [{ ...begun, by: 'declared', kept: 'below', below: milliseconds(9) }],
        },
        recordedConclusions: [
          alarm('Z1', { announcedAt: begun.from, returnedAt: begun.to }),
          alarm('Z2', { suppressed: 'board silent' }),
        ],
      },
      facts.history.from,
      facts.history.to,
    );
    expect(told!.lanes.breaks).toEqual([{ label: 'too cold', lane: 0, ...begun }]);
    expect(told!.lanes.alarms).toEqual([{ label: 'Z1', lane: 0, ...begun }]);
    const drawn = chartSvg(told!);
    for (const name of ['passes', 'breaks', 'heat', 'alarms']) expect(drawn).toContain(`>${name}</text>`);
  });

  it('shows a long job again in pieces that leave nothing out and are cut where nobody welds', () => {
    const span = (from: number, to: number) => ({ from: instant(from * hour), to: instant(to * hour) });
    expect(detailSpans(span(0, 4), span(0, 4), [])).toEqual([]);
    const passes = [span(0.5, 2.9), span(3.2, 6), span(6.1, 9)];
    for (const whole of [span(0, 12), span(0, 150)]) {
      const pieces = detailSpans(whole, whole, passes);
      expect(pieces.length).toBeGreaterThan(3);
      expect(pieces.length).toBeLessThan(14);
      expect(pieces[0]!.from).toBe(whole.from);
      expect(pieces.at(-1)!.to).toBe(whole.to);
      for (const [index, { from }] of pieces.slice(1).entries()) {
        expect(from).toBe(pieces[index]!.to);
        for (const pass of passes) expect(from <= pass.from || from >= pass.to).toBe(true);
      }
    }
    // What comes after the last arc is not cut into pieces.
    expect(detailSpans(span(0, 2), span(0, 18), [])).toEqual([span(0, 2)]);
  });
});

describe('axes', () => {
  it('ticks on round local times, with the date where a day begins', () => {
    const ticks = timeTicks(
      instant(Date.UTC(2026, 10, 25, 21, 10)),
      instant(Date.UTC(2026, 10, 26, 1, 10)),
      'Europe/Warsaw',
    );
    expect(ticks.map(({ label, date }) => `${label}${date === undefined ? '' : ` ${date}`}`)).toEqual([
      '22:30 2026-11-25',
      '23:00',
      '23:30',
      '00:00 2026-11-26',
      '00:30',
      '01:00',
      '01:30',
      '02:00',
    ]);
  });
  it('meets round local times in zones of quarter hours and where the clocks change', () => {
    const kathmandu = timeTicks(instant(Date.UTC(2026, 5, 1)), instant(Date.UTC(2026, 5, 1, 8)), 'Asia/Kathmandu');
    expect(kathmandu.every(({ label }) => label.endsWith(':00'))).toBe(true);
    expect(kathmandu.length).toBeGreaterThan(5);
    const change = timeTicks(instant(Date.UTC(2026, 9, 24, 20)), instant(Date.UTC(2026, 9, 25, 14)), 'Europe/Warsaw');
    expect(change.every(({ label }) => Number(label.slice(0, 2)) % 2 === 0)).toBe(true);
  });
  it('holds every value and limit, and leaves out a limit that would squeeze them', () => {
    const axis = valueAxis([15_000, 172_000], [150_000, 250_000, 900_000]);
    expect(axis.lowest).toBeLessThanOrEqual(15);
    expect(axis.highest).toBeGreaterThanOrEqual(250);
    expect(axis.highest).toBeLessThan(900);
    expect(valueAxis([], []).ticks.length).toBeGreaterThan(1);
  });
});

describe('drawing', () => {
  it('is well-formed, and text from people is never markup', () => {
    const joint = fixtureJoint({
      probes: [
        {
          id: '<b>"Z&1"</b>',
          board: 'PB-0041',
          channel: 1,
          thermocouple: 'K',
          use: 'zone',
          place: { part: 'shell course 2', side: 'A', face: 'front', distanceMillimetres: 75 },
        },
      ],
    });
    const facts = reportFacts({ joint, hours: 2 });
    const [model] = chartModels(facts, facts.history.from, facts.history.to);
    const drawn = chartSvg(model!);
    expect(drawn).not.toContain('<b>');
    expect(drawn).toContain('&lt;b&gt;');
    expect(drawn).not.toMatch(/NaN|Infinity|undefined/);
    const open = [...drawn.matchAll(/<(svg|text|path|line|rect|circle)\b/g)].length;
    const closed = [...drawn.matchAll(/\/>|<\/(svg|text)>/g)].length;
    expect(closed).toBe(open);
  });
  it('is drawn without readings and for one instant', () => {
    const facts = reportFacts({ silences: [['PB-0041', 0, 1000]], hours: 2 });
    for (const to of [facts.history.to, facts.history.from])
      for (const model of chartModels(facts, facts.history.from, to))
        expect(chartSvg(model)).not.toMatch(/NaN|Infinity/);
  });
  it('escapes all five signs', () => {
    expect(escaped(`&<>"'`)).toBe('&amp;&lt;&gt;&quot;&apos;');
  });
  it('moves labels apart within their bounds', () => {
    expect(spread([10, 10, 10], 5, 0, 100)).toEqual([10, 15, 20]);
    expect(spread([98, 99], 5, 0, 100)).toEqual([95, 100]);
  });
});
