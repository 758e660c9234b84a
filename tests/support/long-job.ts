/**
 * A job of twelve hours with sixteen probes at one reading a second: forty passes, two breaks, a probe that fails, a board
 * that falls silent, limits that are not kept, alarms with and without somebody who took note of them, decisions, post-heating,
 * and names in several scripts. Made up here; judged and concluded as a station does it, and kept in a record.
 */

import { isRinging } from '../../server/judgement/alarm-rules.ts';
import type { Assessment } from '../../server/judgement/assessment.ts';
import { needsAnswer } from '../../server/judgement/people/deviations.ts';
import { type Item, itemOf } from '../../server/ledger/item.ts';
import { type Instant, instant, milliCelsius } from '../../server/measure/quantity.ts';
import { openRecord } from '../../server/record/store.ts';
import { conclude, feed, type Opened, startRun } from '../../server/trip/joint-run.ts';
import type { Act } from '../../server/weld/entry.ts';
import type { Joint } from '../../server/weld/joint.ts';
import type { Role } from '../../server/weld/person.ts';
import type { Scan, ScanValue } from '../../server/weld/scan.ts';
import { alarmText } from '../../server/wording/alarm.ts';
import { fixtureJoint } from './report-joint.ts';

export interface LongJob {
  readonly folder: string;
  /** Seconds between two readings of a probe; 1 unless stated. */
  readonly periodSeconds?: number;
  /** Of what stands in titles and reasons. */
  readonly words?: string;
}

export const longJobId = 'long-job';
const begins = Date.UTC(2026, 2, 2, 5);
const minutesInAll = 12 * 60;
const board = 'PB-0041';
const minute = (count: number): Instant => instant(begins + Math.round(count * 60_000));

/** Of several scripts, with signs that a typesetter could take for orders, and one word without an end. */
export const hardWords = `Łukasz Żółć 田中さくら محمد 🙂 #import "x" $x$ *bold* \\ ${'ohneEnde'.repeat(14)}`;

/** Heat as people switch it, the zone as it follows: minutes and degrees, straight between. */
const course: readonly (readonly [minute: number, celsius: number])[] = [
  [0, 16],
  [6, 16],
  [100, 165],
  [400, 172],
  [478, 104],
  [510, 166],
  [620, 170],
  [640, 225],
  [705, 228],
  [720, 208],
];

const people = {
  welder: ['Jiří Dvořák', 'welder'],
  other: ['Дмитрий Орлов', 'welder'],
  heater: ['Imke Sorel', 'heater operator'],
  inspector: ['Mara Lind', 'inspector'],
  coordinator: ['Tove Arnhart', 'coordinator'],
} as const satisfies Record<string, readonly [string, Role]>;
type Who = keyof typeof people;

/** Writes the record and returns the instant of its last entry. */
export function keepLongJob({ folder, periodSeconds = 1, words = '' }: LongJob): Instant {
  const joint = longJoint(words);
  const opened: Opened = {
    kind: 'opened',
    joint,
    source: { kind: 'simulated', detail: 'Made up for a test.' },
    periodMilliseconds: periodSeconds * 1000,
    openedBy: people.coordinator[0],
    rules: 'test',
    station: 'Bay 2',
  };
  let now = minute(0);
  const store = openRecord({ folder, begin: true, program: 'test', now: () => now });
  const run = startRun(now, opened, () => store.inputs(longJobId));
  let items: Item[] = [itemOf(longJobId, { type: 'station', at: now, event: opened })];
  const enter = (who: Who, act: Act): void => {
    const [name, role] = people[who];
    items.push(feed(run, { type: 'act', at: now, who: name, role, proof: 'badge', act }));
  };
  const keep = (): void => {
    items.push(...conclude(run, now));
    store.commit(items);
    items = [];
    run.fed = [];
    store.sealDue(now);
  };
  keep();
  const todo = plan(words);
  for (let second = periodSeconds; second <= minutesInAll * 60; second += periodSeconds) {
    now = instant(begins + second * 1000);
    const scan = scanAt(joint, second);
    if (scan !== undefined) items.push(feed(run, { type: 'scan', scan }));
    while (todo.length > 0 && minute(todo[0]![0]) <= now) {
      const [, who, act] = todo.shift()!;
      for (const each of typeof act === 'function' ? act(run.assessment) : [act]) enter(who, each);
    }
    if (second % 10 < periodSeconds) keep();
  }
  enter('inspector', { kind: 'close', statement: `Closed. ${words}`.trim() });
  keep();
  store.close();
  return now;
}

type Planned = [minute: number, who: Who, act: Act | ((judged: Assessment) => Act[])];

function plan(words: string): Planned[] {
  const list: Planned[] = [
    [6, 'heater', { kind: 'heat', state: 'on' }],
    [20, 'inspector', { kind: 'note', text: `Surface dry, 14 °C in the hall. ${words}` }],
    [251, 'other', { kind: 'break', state: 'begun', reason: `Meal. ${words}` }],
    [284, 'other', { kind: 'break', state: 'ended' }],
    [402, 'heater', { kind: 'heat', state: 'off' }],
    [403, 'welder', { kind: 'break', state: 'begun', reason: 'mains to the heaters failed' }],
    [478, 'heater', { kind: 'heat', state: 'on' }],
    [509, 'inspector', { kind: 'break inspected', method: 'MT', result: 'no indication' }],
    [511, 'welder', { kind: 'break', state: 'ended' }],
    [622, 'welder', { kind: 'welding complete' }],
    [640, 'heater', { kind: 'post-heating', state: 'begun' }],
    [704, 'heater', { kind: 'post-heating', state: 'ended' }],
    [705, 'heater', { kind: 'heat', state: 'off' }],
    [715, 'coordinator', (judged) => decisions(judged, words)],
  ];
  for (let at = 30; at < minutesInAll; at += 30) list.push([at, 'heater', taken]);
  passStarts.forEach((at, index) => {
    const who = index % 3 === 2 ? 'other' : 'welder';
    const pass = `${index + 1}`;
    const passKind = index === 0 ? 'root' : index === passStarts.length - 1 ? 'cap' : 'fill';
    list.push([at, who, { kind: 'pass start', pass, passKind, welder: people[who][0], side: index % 2 ? 'B' : 'A' }]);
    list.push([at + 5, who, { kind: 'pass end', pass, volts: 27, amperes: 250, millimetresPerSecond: 3.7 }]);
  });
  return list.toSorted((a, b) => a[0] - b[0]);
}

/** Every nine minutes, and none in the two breaks. The eighth begins while one place is too cold. */
const passStarts: readonly number[] = Array.from({ length: 54 }, (_, index) => 130 + index * 9).filter(
  (at) => at < 610 && !(at > 242 && at < 285) && !(at > 394 && at < 512),
);

/** Somebody looks at the alarms now and then. */
const taken = ({ alarms }: Assessment): Act[] =>
  alarms
    .filter(isRinging)
    .filter((alarm) => alarmText(alarm, 'metric').what !== '')
    .map(({ key }) => ({ kind: 'acknowledge', alarm: key }));

/** Every second deviation is decided on; the others stay open. */
const decisions = ({ findings }: Assessment, words: string): Act[] =>
  findings
    .filter((each) => needsAnswer(each) && each.to !== undefined)
    .filter((_, index) => index % 2 === 0)
    .map(({ key, value }) => ({
      kind: 'disposition',
      finding: key,
      decision: 'accept',
      ...(value === undefined ? {} : { value }),
      reason: `Examined again. ${words}`,
    }));

function scanAt(joint: Joint, second: number): Scan | undefined {
  const at = second / 60;
  if (at > 350 && at < 353) return undefined;
  const values = joint.probes.map(({ id, use }, index): ScanValue => {
    const isOpen = id === 'Z4' && at > 300 && at < 306;
    if (isOpen) return { probe: id, quality: 'open', raw: { form: 'none' } };
    const unrest = ((second * 2_654_435_761 + index * 40_503) % 97) / 100;
    const temperature = milliCelsius(celsiusAt(use, index, at) + unrest);
    return { probe: id, quality: 'good', temperature, raw: { form: 'temperature', reported: temperature } };
  });
  const measuredAt = instant(begins + second * 1000 - 40);
  const arrivedAt = instant(begins + second * 1000);
  return {
    board,
    boot: 12,
    sequence: second,
    ticks: second * 1000,
    measuredAt,
    arrivedAt,
    late: false,
    inputs: 0,
    values,
  };
}

function celsiusAt(use: string, index: number, at: number): number {
  if (use === 'ambient') return 14 + at / 200;
  const zone = along(at) - index * 0.6;
  if (use === 'heater control') return zone + 22;
  // One place is in a draught for a while.
  if (index === 2 && at > 190 && at < 200) return Math.min(zone, 146);
  if (use !== 'interpass') return zone;
  const arc = passStarts.findLast((begun) => begun <= at);
  const since = arc === undefined ? 99 : at - arc;
  const hot = arc === passStarts[20] ? 120 : 66;
  return zone + (since < 5 ? (hot * since) / 5 : hot * Math.exp(-(since - 5) / 4));
}

function along(at: number): number {
  const next = Math.max(
    1,
    course.findIndex(([until]) => until >= at),
  );
  const [[from, low], [to, high]] = [course[next - 1]!, course[next]!];
  return low + ((at - from) / (to - from)) * (high - low);
}

const longJoint = (words: string): Joint => {
  const names = [
    'Z1',
    'Z2',
    'Z3',
    'Z4',
    'Z5',
    'Z6',
    'Z7',
    'Z8',
    'Z9',
    'Z10',
    'Back A',
    'Back B',
    'I1',
    'I2',
    'H1',
    'Air',
  ];
  const probes = names.map((id, index) => {
    const side = index % 2 === 0 ? 'A' : 'B';
    const wire = { id, board, channel: index + 1, thermocouple: 'K' };
    if (id === 'Air') return { ...wire, use: 'ambient' };
    const kind = id.startsWith('Z')
      ? ({ use: 'zone', face: 'front', distanceMillimetres: 75 } as const)
      : id.startsWith('B')
        ? ({ use: 'opposite face', face: 'back', distanceMillimetres: 75 } as const)
        : id.startsWith('I')
          ? ({ use: 'interpass', face: 'front', distanceMillimetres: 10 } as const)
          : ({ use: 'heater control', face: 'front', distanceMillimetres: 120 } as const);
    const { use, ...place } = kind;
    return { ...wire, use, place: { part: side === 'A' ? 'shell course 2' : 'shell course 3', side, ...place } };
  });
  return fixtureJoint({
    id: longJobId,
    title: `Ring seam 4 of the press cylinder ${words}`.trim().slice(0, 120),
    ...(words === '' ? {} : { workshop: words.slice(0, 120) }),
    probes,
    heating: { means: 'resistance pads', face: 'front', whileWelding: 'on', halfWidthMillimetres: 300 },
    procedure: {
      ...fixtureJoint().procedure,
      breaks: { afterMinutes: 30, fellBelow: ['inspection'] },
    },
    postHeating: { celsius: 200, hours: 1 },
  });
};
