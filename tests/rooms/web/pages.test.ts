import { describe, expect, test } from 'vitest';
import { after, type Instant } from '../../../server/measure/quantity.ts';
import type { FoundJoint } from '../../../server/past/view.ts';
import type { JointSummary } from '../../../server/screen/contract.ts';
import { awayTag } from '../../../server/wording/removal.ts';
import { bound } from '../../../web/format/bound.ts';
import { numberText } from '../../../web/format/number.ts';
import { ageText, clockText, nearClockText, zoneText } from '../../../web/format/time.ts';
import { conditionLines } from '../../../web/pages/joint/conditions.tsx';
import { figuresOf } from '../../../web/pages/joint/figures.ts';
import { closedRow, overviewRows } from '../../../web/pages/overview/overview-model.ts';
import { entryLine } from '../../../web/pages/record/entry-line.ts';
import { probeRows } from '../../../web/state/probe-rows.ts';
import { jointAddress, readRoute, recordAddress } from '../../../web/state/route.ts';
import { bracketScript, girderScript, nozzleScript } from '../../support/station/scripts.ts';
import { momentOf, zone } from './page-fixture.ts';

describe('probes', () => {
  const moment = momentOf(nozzleScript, 50);
  const text = (now: Instant) =>
    probeRows(moment.live, now).map((row) =>
      [row.probe, row.state, row.value, row.before, row.age, row.direction, row.mark].join(' | '),
    );

  test('a fresh value is shown as it is, a fault in words', () => {
    expect(text(moment.now)).toEqual([
      'S1 | fresh | 172 °C |  | 0 s | up | hottest',
      'S2 | fresh | 159 °C |  | 0 s | up | coldest',
      'N1 | fault | wire open |  | 0 s | unknown | ',
    ]);
  });

  test('an old value is never shown as the present one, and says how old it is', () => {
    expect(text(after(moment.now, 3_000))).toEqual([
      'S1 | stale | no reading | 172 °C | 3 s | unknown | ',
      'S2 | stale | no reading | 159 °C | 3 s | unknown | ',
      'N1 | stale | wire open |  | 3 s | unknown | ',
    ]);
  });

  test('one that never spoke says so', () => {
    const silent = momentOf(bracketScript, 5);
    expect(probeRows(silent.live, silent.now)[0]).toMatchObject({ state: 'none', value: 'no reading', age: 'never' });
  });
});

test('figures carry their limit and their place', () => {
  const { live, now } = momentOf(girderScript, 12);
  expect(
    figuresOf(live.assessment, now).map(({ name, value, beside }) => `${name}: ${value} (${beside.join('; ')})`),
  ).toEqual([
    'Coldest: 86 °C (B3, opposite face; minimum 150 °C)',
    'Hottest: 111 °C (W1, side A, front face; highest allowed 300 °C; front zone probes 14 K apart)',
    'Interpass: 111 °C (W1; at most 250 °C; rising 7.2 K/min)',
    'Heat: on (for 10 min)',
  ]);
});

test('conditions that hold the joint up come first; what nobody asks for last', () => {
  const { live } = momentOf(girderScript, 12);
  expect(
    conditionLines(live.assessment).map(({ state, holdsUp, id }) => `${state}${holdsUp ? '!' : ''} ${id}`),
  ).toEqual([
    'not met! minimum reached',
    'met minimum stated',
    'met answers given',
    'met zone probes placed',
    'met soak',
    'met highest temperature',
    'met interpass maximum',
    'not judged evenness',
  ]);
});

test('while a pass runs, interpass holds nothing up: it was asked at the start', () => {
  const { live } = momentOf(girderScript, 63.1);
  const interpass = conditionLines(live.assessment).find(({ id }) => id === 'interpass maximum');
  expect(interpass).toMatchObject({ state: 'not met', holdsUp: false });
});

describe('overview', () => {
  const summary = (moment: ReturnType<typeof momentOf>): JointSummary => ({
    id: moment.live.joint.id,
    title: moment.live.joint.title,
    assessment: moment.live.assessment,
  });

  test('who needs someone stands first; silent ones are never left out', () => {
    const rows = overviewRows([
      summary(momentOf(girderScript, 55)),
      summary(momentOf(bracketScript, 5)),
      summary(momentOf(nozzleScript, 50)),
    ]);
    expect(rows.map(({ word, title, sentence, mark }) => `${word}: ${title}: ${sentence} (${mark})`)).toEqual([
      'Alarm: Nozzle N4 to shell: Probe fault at N1: its place is not judged (Source not verified)',
      'Silent: Lifting bracket 12: No fresh reading at E1 (Simulated)',
      expect.stringMatching(
        /^Ready: Girder splice 7, lower flange: Ready: coldest opposite face \d+ °C of 150 °C at B3 \(Simulated\)$/,
      ),
    ]);
  });

  test('a joint whose required probes fell silent is not told as ready', () => {
    const { run, now } = momentOf(girderScript, 55);
    run.judge.advance(after(now, 10_000));
    const [row] = overviewRows([{ id: 'x', title: 'x', assessment: run.judge.assess() }]);
    expect(row!.need).not.toBe('ready');
  });

  const found = (changes: Partial<FoundJoint>): FoundJoint => ({
    id: 'x',
    title: 'x',
    open: false,
    verdict: 'does-not-comply',
    source: 'measured',
    openedAt: 0 as Instant,
    closedAt: 2 as Instant,
    lastAt: 2 as Instant,
    welders: [],
    passes: 0,
    findings: [],
    deviations: { open: 0, accepted: 0, repair: 0, rejected: 0 },
    places: [],
    ...changes,
  });

  test('a closed joint is told by its verdict, and its temperature is no longer watched', () => {
    const row = closedRow(found({}));
    expect(row).toEqual({ id: 'x', title: 'x', need: 'closed', word: 'Closed', sentence: 'Does not comply' });
    const decided = closedRow(found({ deviations: { open: 1, accepted: 2, repair: 0, rejected: 0 } }));
    expect(decided.sentence).toBe('Does not comply; deviations: 1 open and 2 accepted');
    expect(closedRow(found({ source: 'simulated', readingsRemoved: true }))).toMatchObject({
      mark: 'Simulated',
      away: awayTag,
    });
  });
});

test('every entry of the record has its line; what is not known is shown whole', () => {
  const line = (kind: string, body: unknown) =>
    entryLine({ at: 3_600_000 as Instant, seq: 1, who: 'Ada', kind, body }, 'metric', 'UTC');
  expect(line('pass start', { pass: '3', passKind: 'fill', welder: 'Bo', side: 'A', happenedAt: 3_480_000 })).toBe(
    'Pass 3 started: fill, welder Bo, side A (happened 00:58:00)',
  );
  expect(line('heat', { state: 'off' })).toBe('Heat off');
  expect(line('something new', { a: 1 })).toBe('Something new: {"a":1}');
});

test('addresses lead back to the page they name', () => {
  expect(readRoute(jointAddress('a b/ü'))).toEqual({ page: 'joint', joint: 'a b/ü' });
  expect(readRoute(recordAddress('x'))).toEqual({ page: 'record', joint: 'x' });
  expect(readRoute('')).toEqual({ page: 'overview' });
  expect(readRoute('#/nowhere/at/all/here')).toEqual({ page: 'unknown', address: '#/nowhere/at/all/here' });
  expect(readRoute('#/joint/%E0%A4%A')).toEqual({ page: 'joint', joint: '%E0%A4%A' });
});

test('times are in the zone, 24 h, with the day where it is another one', () => {
  const evening = Date.parse('2026-11-25T22:30:05Z') as Instant;
  expect(clockText(evening, zone)).toBe('23:30:05');
  expect(clockText(after(evening, 3_600_000), zone)).toBe('00:30:05');
  expect(zoneText(evening, zone)).toBe('CET');
  expect(nearClockText(evening, after(evening, 3_600_000), zone)).toBe('25 Nov 2026, 23:30:05');
  expect([0, 59_999, 60_000, 7_200_000, 200_000_000].map(ageText)).toEqual(['0 s', '59 s', '1 min', '2 h', '2 d']);
});

test('a number keeps its unit beside it', () => {
  expect(bound('coldest 150 °C of 160 °C, about 9 min, rising 2 K/min')).toBe(
    'coldest 150\u00a0°C of 160\u00a0°C, about 9\u00a0min, rising 2\u00a0K/min',
  );
  expect(bound('pass 1 side A')).toBe('pass 1 side A');
  expect([1.5, 1.0, -0.04, -3].map((value) => numberText(value, 1))).toEqual(['1.5', '1', '0', '−3']);
});
