/**
 * A joint that heats up, soaks, is welded and cools, as a function of time: crude, invented, and enough to
 * move every part of a screen. The readings go through the real judge, so that what a page shows under
 * test is what the judge says.
 */
import { createJudge, type Judge } from '../../../server/judgement/judge.ts';
import { after, type Instant, milliCelsius } from '../../../server/measure/quantity.ts';
import type { Act, Input, SourceKind } from '../../../server/weld/entry.ts';
import type { Joint } from '../../../server/weld/joint.ts';
import type { Probe } from '../../../server/weld/probe.ts';
import type { Quality, ScanValue } from '../../../server/weld/scan.ts';

export interface Scripted {
  readonly minute: number;
  readonly act: Act;
}

export interface Script {
  readonly joint: Joint;
  readonly source: SourceKind;
  /** Where the heater drives the part, degrees Celsius; slower places follow later. */
  readonly heaterCelsius: number;
  readonly acts: readonly Scripted[];
  /** A probe that fails for a while. */
  readonly faults?: readonly {
    readonly probe: string;
    readonly from: number;
    readonly to: number;
    readonly quality: Quality | 'silent';
  }[];
  /** No reading at all, ever. */
  readonly silent?: boolean;
}

export interface Reading {
  readonly at: Instant;
  readonly quality: Quality;
  readonly temperature?: number;
}

export interface Entry {
  readonly at: Instant;
  readonly seq: number;
  readonly who: string;
  readonly kind: string;
  readonly body: unknown;
}

export interface Run {
  readonly script: Script;
  readonly judge: Judge;
  readonly readings: Map<string, Reading[]>;
  readonly entries: Entry[];
  position: number;
  /** Moves to the instant; returns the probes' readings of the steps made. */
  advance(to: Instant): { readonly probe: string; readonly reading: Reading }[];
  act(who: string, act: Act, at: Instant): number;
}

export const periodMilliseconds = 1000;

export const startRun = (script: Script, openedAt: Instant): Run => {
  const { joint } = script;
  const opened = {
    kind: 'opened' as const,
    joint,
    source: { kind: script.source, detail: 'the board says that it is an emulator' },
    periodMilliseconds,
    openedBy: 'Ada Example',
    rules: 'test',
    station: 'test station',
  };
  const judge = createJudge(openedAt, opened);
  const readings = new Map<string, Reading[]>(joint.probes.map((probe) => [probe.id, []]));
  const entries: Entry[] = [{ at: openedAt, seq: 1, who: 'station', kind: 'opened', body: opened }];
  const celsius = new Map(joint.probes.map((probe) => [probe.id, 18 + (probe.channel % 3) * 0.4]));
  let now = openedAt;
  let heat = 0;
  let arc = 0;
  let next = 0;
  let sequence = 0;

  const take = (input: Input): void => {
    judge.take(input);
    run.position += 1;
  };

  const act = (who: string, body: Act, at: Instant): number => {
    if (body.kind === 'heat') heat = body.state === 'on' ? 1 : 0;
    if (body.kind === 'pass start') arc += 1;
    if (body.kind === 'pass end') arc = Math.max(0, arc - 1);
    take({ type: 'act', at, who, act: body });
    entries.push({ at, seq: entries.length + 1, who, kind: body.kind, body });
    return run.position;
  };

  const step = (probe: Probe, minute: number): ScanValue | undefined => {
    const pace = paceOf(probe);
    const t = celsius.get(probe.id)!;
    const target = probe.use === 'heater control' ? script.heaterCelsius + 120 : script.heaterCelsius;
    const beside = celsius.get(joint.probes[0]!.id)!;
    const arcing = probe.use === 'interpass' ? (arc > 0 ? 1.1 : (beside - t) / 240) : 0;
    const t2 = t + (heat === 1 ? (target - t) / (pace * 60) : (18 - t) / (pace * 420)) + arcing;
    celsius.set(probe.id, t2);
    const fault = script.faults?.find((each) => each.probe === probe.id && minute >= each.from && minute < each.to);
    if (fault?.quality === 'silent') return undefined;
    if (fault !== undefined) return { probe: probe.id, quality: fault.quality as Quality, raw: { form: 'none' } };
    const wobble = Math.sin(now / 1000 / (7 + probe.channel)) * 0.25;
    const temperature = milliCelsius(Math.round((t2 + wobble) * 10) / 10);
    return { probe: probe.id, quality: 'good', temperature, raw: { form: 'temperature', reported: temperature } };
  };

  const run: Run = {
    script,
    judge,
    readings,
    entries,
    position: 1,
    advance(to) {
      const out: { probe: string; reading: Reading }[] = [];
      while (now + periodMilliseconds <= to) {
        now = after(now, periodMilliseconds);
        const minute = (now - openedAt) / 60_000;
        while (next < script.acts.length && script.acts[next]!.minute <= minute) {
          act('Ada Example', script.acts[next]!.act, now);
          next += 1;
        }
        if (script.silent === true) continue;
        const values = joint.probes.map((probe) => step(probe, minute)).filter((value) => value !== undefined);
        take({
          type: 'scan',
          scan: {
            board: joint.probes[0]!.board,
            boot: 1,
            sequence: ++sequence,
            ticks: sequence * 1000,
            measuredAt: now,
            arrivedAt: now,
            late: false,
            inputs: 0,
            values,
          },
        });
        for (const value of values) {
          const reading: Reading = {
            at: now,
            quality: value.quality,
            ...(value.temperature === undefined ? {} : { temperature: value.temperature }),
          };
          readings.get(value.probe)!.push(reading);
          out.push({ probe: value.probe, reading });
        }
      }
      judge.advance(to);
      return out;
    },
    act,
  };
  return run;
};

/** Time constant in minutes: the far face and the far places follow later. */
const paceOf = (probe: Probe): number => {
  if (probe.use === 'heater control') return 3;
  if (probe.place === undefined) return 60;
  return 13 + probe.place.distanceMillimetres / 20 + (probe.place.face === 'back' ? 7 : 0) + (probe.channel % 4) * 0.8;
};
