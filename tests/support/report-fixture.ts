/**
 * Facts for a report from an invented workshop. The temperatures are made up here; the judgement of them is the
 * real judge's, so that a report is tested on what a station would hand it.
 */

import type { Assessment } from '../../server/judgement/assessment.ts';
import { conclusions } from '../../server/judgement/conclusions.ts';
import { createJudge } from '../../server/judgement/judge.ts';
import type { HistorySeries, HistoryStep } from '../../server/measure/history.ts';
import { type Instant, instant, milliCelsius, milliseconds } from '../../server/measure/quantity.ts';
import type { ReportFacts, TimelineEntry } from '../../server/report/facts.ts';
import type { Act, Input, Source, StationEvent } from '../../server/weld/entry.ts';
import { arrival } from '../../server/weld/entry.ts';
import type { Joint } from '../../server/weld/joint.ts';
import type { Scan, ScanValue } from '../../server/weld/scan.ts';
import { fixtureJoint } from './report-joint.ts';

const fixtureZone = 'Europe/Warsaw';
/** 2026-11-25 07:00:00 in Warsaw. */
export const fixtureStart = instant(Date.UTC(2026, 10, 25, 6, 0, 0));

export interface FixtureOptions {
  readonly joint?: Joint;
  readonly source?: Source;
  readonly hours?: number;
  readonly passes?: number;
  readonly periodSeconds?: number;
  /** No scan of a board arrives within: [board, from, to] in minutes from the start. */
  readonly silences?: readonly (readonly [board: string, from: number, to: number])[];
  readonly close?: boolean;
  readonly start?: Instant;
  readonly zone?: string;
  readonly extraActs?: readonly (readonly [minute: number, who: string, act: Act])[];
}

export function reportFacts(options: FixtureOptions = {}): ReportFacts {
  const joint = options.joint ?? fixtureJoint();
  const start = options.start ?? fixtureStart;
  const source = options.source ?? {
    kind: 'simulated',
    detail: 'board PB-0041 says in its hello that it is an emulator',
  };
  const period = (options.periodSeconds ?? 10) * 1000;
  const hours = options.hours ?? 3;
  const minutes = hours * 60;
  const at = (minute: number): Instant => instant(start + minute * 60_000);
  const opened: StationEvent & { kind: 'opened' } = {
    kind: 'opened',
    joint,
    source,
    periodMilliseconds: period,
    openedBy: 'Łukasz Żółć',
    rules: '1 (8c1f27aa)',
    station: 'Bay 2',
  };
  const timeline: Input[] = [
    { type: 'station', at: at(0), event: opened },
    ...boardsOf(joint).map(
      (board): Input => ({
        type: 'station',
        at: at(0.1),
        event: {
          kind: 'board',
          board,
          boot: 12,
          firmware: '1.0.0',
          simulated: source.kind === 'simulated',
          port: '/dev/ttyUSB0',
        },
      }),
    ),
    ...actsOf(options, minutes, at),
  ];
  const inputs = [...timeline, ...scansOf(joint, options, start, minutes, period)].sort(
    (a, b) => arrival(a) - arrival(b) || (a.type === 'scan' ? 1 : 0) - (b.type === 'scan' ? 1 : 0),
  );
  const judge = createJudge(start, opened);
  const recorded: { at: Instant; conclusion: ReturnType<typeof conclusions>[number] }[] = [];
  let before: Assessment | undefined;
  let asked = start as number;
  for (const input of inputs.slice(1)) {
    judge.take(input);
    if (arrival(input) - asked < 30_000 && input.type === 'scan') continue;
    asked = arrival(input);
    const now = judge.assess();
    for (const conclusion of conclusions(before, now)) recorded.push({ at: instant(asked), conclusion });
    before = now;
  }
  const lastAt = arrival(inputs.at(-1)!);
  judge.advance(lastAt);
  const assessment = judge.assess();
  const closedAt = (options.close ?? true) ? lastAt : undefined;
  const entries: TimelineEntry[] = timeline
    .toSorted((a, b) => arrival(a) - arrival(b))
    .map((input, index) => ({ seq: index * 3, input: input as TimelineEntry['input'] }));
  return {
    joint,
    assessment,
    courses: judge.courses(lastAt),
    handReadings: judge.handReadings(),
    ...(closedAt === undefined
      ? {}
      : { closedAt, recordedVerdict: { verdict: assessment.verdict, at: closedAt, rules: '1 (8c1f27aa)' } }),
    recordedConclusions: recorded,
    differs: false,
    source,
    program: { name: 'Preheat Ledger', version: '0.1.0' },
    rules: '1 (8c1f27aa)',
    station: 'Bay 2',
    openedBy: 'Łukasz Żółć',
    head: { chain: 'kn-12', seq: entries.length * 3, hash: '3f9a61c07d52e8b4'.repeat(4) },
    stamps: [],
    entries: entries.length * 3 + 1,
    openedAt: start,
    lastAt,
    zone: options.zone ?? fixtureZone,
    periodMilliseconds: period,
    timeline: entries,
    history: historyOf(joint, inputs, start, lastAt, period),
    documents: [
      {
        title: 'Heat certificate H-70881',
        mediaType: 'application/pdf',
        bytes: 184_233,
        sha256: 'b7e4'.repeat(16),
        at: at(2),
        who: 'Дмитрий Орлов',
        present: true,
      },
    ],
  };
}

const boardsOf = ({ probes: list }: Joint): string[] => [...new Set(list.map(({ board }) => board))];

const actsOf = (options: FixtureOptions, minutes: number, at: (minute: number) => Instant): Input[] => {
  const passes = options.passes ?? 3;
  const firstPass = 105;
  const gap = (minutes - firstPass - 5) / Math.max(1, passes);
  const act = (minute: number, who: string, body: Act, role?: string): Input => ({
    type: 'act',
    at: at(minute),
    who,
    ...(role === undefined ? {} : { role }),
    act: body,
  });
  const list = [
    act(3, 'Дмитрий Орлов', { kind: 'heat', state: 'on' }, 'heater operator'),
    act(
      4,
      'Łukasz Żółć',
      { kind: 'note', text: 'Pads fitted on the back face, insulation 50 mm.\nSurface dry, 14 °C in the hall.' },
      'inspector',
    ),
    ...Array.from({ length: passes }, (_, index) => {
      const begin = firstPass + index * gap;
      const kind = index === 0 ? 'root' : index === passes - 1 ? 'cap' : 'fill';
      const side = index % 2 === 0 ? 'A' : 'B';
      return [
        act(
          begin,
          'Jiří Dvořák',
          { kind: 'pass start', pass: `${index + 1}`, passKind: kind, welder: 'Jiří Dvořák', side },
          'welder',
        ),
        act(begin + gap * 0.6, 'Jiří Dvořák', { kind: 'pass end', pass: `${index + 1}` }, 'welder'),
      ];
    }).flat(),
    ...(options.extraActs ?? []).map(([minute, who, body]) => act(minute, who, body)),
  ];
  if (options.close ?? true)
    list.push(
      act(
        minutes,
        'Łukasz Żółć',
        { kind: 'close', statement: 'All passes welded, heat off under cover.' },
        'inspector',
      ),
    );
  return list;
};

/** A slow rise to a plateau, a warm weld, a colder corner; smooth but never flat. In degrees Celsius. */
const temperatureAt = (
  joint: Joint,
  index: number,
  minute: number,
  options: FixtureOptions,
  minutes: number,
): number => {
  const use = joint.probes[index]!.use;
  const ripple = 0.6 * Math.sin(minute / 3 + index) + 0.3 * Math.sin(minute * 1.7 + index * 2);
  if (use === 'ambient') return 14 + minute / 120 + ripple / 3;
  const plateau = use === 'heater control' ? 215 : 172 - index * 1.4;
  const delay = 3 + index * 0.8;
  const rise = minute <= delay ? 0 : 1 - Math.exp(-(minute - delay) / 24);
  const passes = options.passes ?? 3;
  const gap = (minutes - 110) / Math.max(1, passes);
  const into = minute - 105;
  const arc = into > 0 && into % gap < gap * 0.6 && into / gap < passes;
  const weld =
    use === 'interpass' && into > 0 ? 24 + (arc ? 34 * Math.sin(((into % gap) / (gap * 0.6)) * Math.PI) : 0) : 0;
  return 15 + (plateau - 15) * rise + weld + ripple;
};

const scansOf = (joint: Joint, options: FixtureOptions, start: Instant, minutes: number, period: number): Input[] => {
  const inputs: Input[] = [];
  for (const board of boardsOf(joint)) {
    for (let tick = 1; tick * period < minutes * 60_000; tick += 1) {
      const minute = (tick * period) / 60_000;
      if (options.silences?.some(([name, from, to]) => name === board && minute >= from && minute < to)) continue;
      const values = joint.probes.flatMap((probe, index): ScanValue[] => {
        if (probe.board !== board) return [];
        const temperature = milliCelsius(temperatureAt(joint, index, minute, options, minutes));
        return [{ probe: probe.id, quality: 'good', temperature, raw: { form: 'temperature', reported: temperature } }];
      });
      const measuredAt = instant(start + tick * period);
      const scan: Scan = {
        board,
        boot: 12,
        sequence: tick,
        ticks: milliseconds(tick * period + 8000),
        measuredAt,
        arrivedAt: instant(measuredAt + 20),
        late: false,
        inputs: 0,
        values,
      };
      inputs.push({ type: 'scan', scan });
    }
  }
  return inputs;
};

const historyOf = (joint: Joint, inputs: readonly Input[], from: Instant, to: Instant, period: number) => {
  const stepMilliseconds = Math.max(period, Math.ceil((to - from) / 1000 / period) * period);
  const count = Math.ceil((to - from) / stepMilliseconds);
  const series = joint.probes.map(({ id }): HistorySeries => {
    const steps: HistoryStep[] = Array.from({ length: count }, (_, index) => [from + index * stepMilliseconds, null]);
    for (const input of inputs) {
      if (input.type !== 'scan') continue;
      const value = input.scan.values.find(({ probe }) => probe === id)?.temperature;
      const index = Math.floor((input.scan.measuredAt - from) / stepMilliseconds);
      const step = steps[index];
      if (value === undefined || step === undefined) continue;
      if (step[1] === null) steps[index] = [step[0], value, value, value, value];
      else steps[index] = [step[0], step[1], Math.min(step[2]!, value), Math.max(step[3]!, value), value];
    }
    return { probe: id, steps };
  });
  return { from, to, stepMilliseconds, series };
};
