/**
 * A bad day in an invented shop, script and readings: two joints on one flaky board, a thermostat that swings about the
 * minimum, arc noise, a probe that dies slowly, a break that is forgotten, a torch held too long, and in the end a board
 * that stays away and comes back without one of its probes.
 */
import { instant, milliCelsius } from '../../server/measure/quantity.ts';
import type { Act, Input } from '../../server/weld/entry.ts';
import type { Joint } from '../../server/weld/joint.ts';
import type { ScanValue } from '../../server/weld/scan.ts';
import { plainJoint } from './plain-joint.ts';
import { random } from './random.ts';
import { dayBegins } from './record.ts';

export const dayHours = 6;
const badDayPeriod = 2000;
const probeIds = ['T1', 'T2', 'T3', 'T4', 'T5', 'T6', 'T7', 'P1'] as const;
const minute = 60_000;

/** The joints stand side by side under the same pads; `second` is the one that the torch is held on. */
export function badDay(second: boolean): readonly Input[] {
  const joint = jointOf(second ? 'second' : 'first');
  const noise = noiseOf(second ? 77 : 11);
  const inputs: Input[] = [
    {
      type: 'station',
      at: instant(dayBegins),
      event: {
        kind: 'opened',
        joint,
        source: { kind: 'measured', detail: 'bad day' },
        periodMilliseconds: badDayPeriod,
        openedBy: 'Ada',
        rules: 'test',
        station: 'test',
      },
    },
  ];
  const acts = [...actsOf(second)];
  let sequence = 0;
  for (let time = badDayPeriod; time <= dayHours * 60 * minute; time += badDayPeriod) {
    while (acts[0] !== undefined && acts[0].minute * minute <= time) {
      const { act, minute: at } = acts.shift()!;
      inputs.push({ type: 'act', at: instant(dayBegins + at * minute), who: 'Bo', act });
    }
    sequence += 1;
    const shaken = probeIds.map(() => noise());
    if (isBoardAway(time)) continue;
    const when = instant(dayBegins + time);
    inputs.push({
      type: 'scan',
      scan: {
        board: 'K1',
        boot: 1,
        sequence,
        ticks: time,
        measuredAt: when,
        arrivedAt: when,
        late: false,
        inputs: 0,
        values: probeIds.map((probe, index) => readingOf(probe, index, time, second, shaken[index]!)),
      },
    });
  }
  return inputs;
}

const jointOf = (id: string): Joint =>
  plainJoint({
    id,
    heating: { means: 'resistance pads', face: 'back', whileWelding: 'on' },
    procedure: {
      id: 'P-1',
      revision: '0',
      decisionRule: 'simple acceptance',
      preheatMinimumCelsius: 150,
      soakHoldMinutes: 2,
      maintenanceMinimumCelsius: 120,
      interpassMaximumCelsius: 290,
      highestCelsius: 300,
    },
    probes: probeIds.map((probe, index) => ({
      id: probe,
      board: 'K1',
      channel: index + 1,
      thermocouple: 'K' as const,
      use: probe === 'P1' ? ('interpass' as const) : ('zone' as const),
      place: {
        part: 'plate',
        side: index % 2 === 0 ? ('A' as const) : ('B' as const),
        face: 'front' as const,
        distanceMillimetres: probe === 'P1' ? 10 : 75,
      },
    })),
  });

/** Passes of ten minutes with five between, and one break that nobody looks after. */
function* actsOf(second: boolean): Iterable<{ minute: number; act: Act }> {
  yield { minute: 1, act: { kind: 'heat', state: 'on' } };
  let pass = 0;
  const from = second ? 104 : 100;
  for (let at = from; at < 350; at += 15) {
    if (at + 10 > 205 && at < 262) continue;
    pass += 1;
    const name = String(pass);
    yield { minute: at, act: { kind: 'pass start', pass: name, passKind: 'fill', welder: 'Bo' } };
    yield { minute: at + 10, act: { kind: 'pass end', pass: name } };
  }
}

/** From 2:00 to 2:40 its cable is loose: half a minute away in every three. From 5:10 it is dead for a quarter of an hour. */
function isBoardAway(time: number): boolean {
  const at = time / minute;
  const loose = at >= 120 && at < 160 && at % 3 < 0.5;
  return loose || (at >= 310 && at < 325);
}

function readingOf(probe: string, index: number, time: number, second: boolean, noise: number): ScanValue {
  const at = time / minute;
  if (!second && probe === 'T3' && isDying(at)) return { probe, quality: 'open', raw: { form: 'none' } };
  if (second && probe === 'T5' && at >= 312 && at < 345) return { probe, quality: 'open', raw: { form: 'none' } };
  const temperature = milliCelsius(Math.round((celsiusOf(index, at, second) + noise) * 1000) / 1000);
  return { probe, quality: 'good', temperature, raw: { form: 'temperature', reported: temperature } };
}

/** From 2:50 on twelve seconds open in each half minute; from 3:10 open for good; mended at 3:40. */
const isDying = (at: number): boolean => (at >= 170 && at < 190 && (at * 60) % 30 < 12) || (at >= 190 && at < 220);

/**
 * Heated to 158 in 90 minutes, held by a thermostat that swings by 4 K. In the hour about 2:15 the set point is a
 * little low, so that each swing of four minutes passes under 150. From 3:30 the heat is off for half an hour.
 */
function celsiusOf(index: number, at: number, second: boolean): number {
  const swing = 4 * Math.sin((2 * Math.PI * at) / 4) + index * 0.3;
  const held = at < 90 ? 20 + (138 * at) / 90 : (at >= 105 && at < 165 && !second ? 151 : 158) + swing;
  const cooled =
    at >= 210 && at < 262 ? Math.min(held, 158 - 1.4 * (Math.min(at, 240) - 210) + 3 * Math.max(0, at - 240)) : held;
  // The torch: about the highest that is allowed, up and down with the hand.
  return second && index === 6 && at >= 275 && at < 290 ? 300 + 5 * Math.sin((2 * Math.PI * at) / 0.5) : cooled;
}

/** Half a kelvin either way, and once in a hundred readings what an arc does to a wire. Always the same by its seed. */
function noiseOf(seed: number): () => number {
  const next = random(seed);
  return () => next() - 0.5 + (next() < 0.01 ? 30 * (next() - 0.5) : 0);
}
