/** Counts worked out by hand, each with what it is made of; and what is never added up. */
import { expect, test } from 'vitest';
import { instant } from '../../../server/measure/quantity.ts';
import type { Card, CardFinding } from '../../../server/past/card.ts';
import { holdsLost } from '../../../server/past/holds-lost.ts';
import { periodOf, periodsBetween } from '../../../server/past/period.ts';
import { shareOf } from '../../../server/past/share.ts';
import { spreadOf } from '../../../server/past/spread.ts';
import { statisticsOf } from '../../../server/past/statistics.ts';
import { foundColumns, foundCsv, statisticsCsv } from '../../../server/report/past-csv.ts';
import { cardWith } from './card-with.ts';

const at = (text: string) => instant(Date.parse(text));
const minute = 60_000;
const pass = (name: string, welder = 'Bo') => ({ pass: name, welder, startedAt: at('2026-03-02T08:00:00Z') });
const found = (kind: CardFinding['kind'], more: Partial<CardFinding> = {}): CardFinding => ({
  kind,
  severity: 'nonconformity',
  ...more,
});

const heated = (chain: string, toArc: number, more: Partial<Card> = {}): Card =>
  cardWith({
    chain,
    closedAt: at('2026-03-02T12:00:00Z'),
    firstHeatAt: at('2026-03-02T07:00:00Z'),
    firstArcAt: instant(at('2026-03-02T07:00:00Z') + toArc * minute),
    hasInterpassMaximum: true,
    passes: [pass('1'), pass('2'), pass('3')],
    ...more,
  });

const cards: Card[] = [
  heated('a', 40, { holdsLost: 2, grades: ['S690QL'], procedure: { id: 'W', revision: '1' } }),
  heated('b', 60, {
    verdict: 'does-not-comply',
    findings: [found('interpass above maximum', { pass: '3' }), found('soak not met', { pass: '1' })],
    grades: ['S690QL', 'S355'],
    breaks: 1,
  }),
  heated('c', 100, {
    closedAt: at('2026-04-01T12:00:00Z'),
    verdict: 'cannot-be-judged',
    findings: [
      found('interpass not judged', { pass: '2', severity: 'not judged' }),
      found('silent', { probe: 'T1', severity: 'remark' }),
    ],
    probes: [
      { id: 'T1', board: 'PB-1', channel: 3, wire: 'W-9' },
      { id: 'T2', board: 'PB-1', channel: 4 },
    ],
    passes: [pass('1'), pass('2'), pass('3', 'Ada')],
  }),
  // Open, not heated, no maximum.
  cardWith({ chain: 'd', passes: [pass('1', 'Ada'), pass('2', 'Ada')] }),
  heated('e', 10, { source: { kind: 'simulated', detail: '' }, verdict: 'does-not-comply' }),
];

test('what was measured is counted by itself, with what was left out', () => {
  const { sources } = statisticsOf(cards, 'month', 'UTC');
  expect(sources.map(({ source, joints }) => [source, joints])).toEqual([
    ['measured', 4],
    ['simulated', 1],
  ]);
  const [measured] = sources;
  expect(measured).toMatchObject({
    open: 1,
    verdicts: { complies: 1, 'does-not-comply': 1, 'cannot-be-judged': 1, n: 3 },
    heatToArc: { n: 3, leftOut: 1, lowerQuartile: 50 * minute, median: 60 * minute, upperQuartile: 80 * minute },
    holdLost: { count: 1, of: 3, times: 2 },
    // Six passes after a first one of a joint with a maximum, one of them not judged; one pass has no maximum.
    interpass: { count: 1, of: 5, noMaximum: 1, notJudged: 1 },
    breaks: { count: 1, of: 4, times: 1 },
  });
  expect(measured!.bySteel.map(({ name, n }) => [name, n])).toEqual([
    ['not stated', 1],
    ['S355', 1],
    ['S690QL', 2],
  ]);
  expect(measured!.byPeriod.map(({ name, n, interpass }) => [name, n, interpass.count, interpass.of])).toEqual([
    ['2026-03', 2, 1, 4],
    ['2026-04', 1, 0, 1],
  ]);
  expect(measured!.welders).toEqual([
    { name: 'Ada', joints: 2, passes: { count: 0, of: 3 } },
    { name: 'Bo', joints: 3, passes: { count: 2, of: 8 } },
  ]);
  expect(measured!.probes).toEqual([
    { what: 'channel', name: 'PB-1, channel 3', joints: 1, faulty: 1, times: 1, kinds: ['silent'] },
    { what: 'wire', name: 'W-9', joints: 1, faulty: 1, times: 1, kinds: ['silent'] },
  ]);
  expect(measured!.findings[0]).toEqual({
    kind: 'interpass above maximum',
    severity: 'nonconformity',
    times: 1,
    joints: 1,
  });
});

test('a share is a rate only where there are enough, with the range that chance could make of it', () => {
  expect(shareOf(3, 19)).toEqual({ count: 3, of: 19 });
  // Wilson's interval for 5 of 20, worked out by hand: (0.25 + 0.09604 -+ 0.20789) / 1.19208.
  const { rate, from, to } = shareOf(5, 20);
  expect([rate, from, to].map((each) => Math.round(each! * 1000))).toEqual([250, 112, 469]);
  expect(shareOf(0, 40).from).toBe(0);
  expect(shareOf(40, 40).to).toBe(1);
});

test('quartiles lie between two neighbours in proportion', () => {
  expect(spreadOf([1, 2, 3, 4])).toEqual({
    n: 4,
    lowest: 1,
    lowerQuartile: 1.75,
    median: 2.5,
    upperQuartile: 3.25,
    highest: 4,
  });
  expect(spreadOf([])).toEqual({ n: 0 });
});

test('weeks are those of ISO 8601, by the calendar of the zone', () => {
  // 2027-01-01 is a Friday: it belongs to the last week of 2026, which has 53.
  expect(periodOf(at('2027-01-01T12:00:00Z'), 'week', 'UTC')).toBe('2026-W53');
  expect(periodOf(at('2026-12-31T23:30:00Z'), 'month', 'Europe/Oslo')).toBe('2027-01');
  expect(periodOf(at('2026-11-28T12:00:00Z'), 'week', 'UTC')).toBe('2026-W48');
  expect(periodsBetween('2026-11', '2027-02')).toEqual(['2026-11', '2026-12', '2027-01', '2027-02']);
  for (const [from, weeks] of [
    ['2026-W52', ['2026-W52', '2026-W53', '2027-W01', '2027-W02']],
    ['2025-W51', ['2025-W51', '2025-W52', '2026-W01']],
  ] as const)
    expect(periodsBetween(from, weeks.at(-1)!), from).toEqual(weeks);
  // Day after day of some years: the same names, none left out and none twice.
  const days = Array.from({ length: 3000 }, (_, day) => instant(Date.UTC(2024, 0, 1) + day * 86_400_000));
  for (const kind of ['week', 'month'] as const) {
    const names = [...new Set(days.map((day) => periodOf(day, kind, 'UTC')))];
    expect(periodsBetween(names[0]!, names.at(-1)!)).toEqual(names);
  }
});

test('a hold is lost where a joint falls back before its first arc', () => {
  const phases = (...names: string[]) => names.map((phase) => ({ kind: 'phase', phase }) as never);
  expect(holdsLost(phases('planned', 'heating', 'equalising', 'ready', 'pass running', 'heating'))).toBe(0);
  expect(holdsLost(phases('heating', 'equalising', 'heating', 'equalising', 'ready', 'equalising', 'ready'))).toBe(2);
});

test('as CSV: one row a joint, words that a spreadsheet would run are marked, and figures with what they are of', () => {
  const [head, row] = foundCsv([heated('a', 40, { title: '=1+1', heats: ['H1', 'H2'] })], 'Europe/Oslo').split('\r\n');
  expect(head!.split(',')).toEqual(foundColumns);
  expect(row).toContain(`a,'=1+1,closed,measured,complies,recorded,`);
  expect(row).toContain('2026-03-02T13:00:00.000+01:00');
  expect(row).toContain('H1; H2');
  const figures = statisticsCsv(statisticsOf(cards, 'month', 'UTC')).split('\r\n');
  expect(figures).toContain('measured,interpass,,passes above maximum,1,5');
  expect(figures).toContain(
    'measured,"heat on to first arc",,"seconds, median",3600,3'.replaceAll(
      '"heat on to first arc"',
      'heat on to first arc',
    ),
  );
  expect(figures).toContain('simulated,verdict,,does-not-comply,1,1');
});
