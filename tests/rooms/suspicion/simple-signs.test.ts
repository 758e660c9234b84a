/** Faults that one probe shows by itself or against plain company, and sound readings beside them that look almost alike. */
import { describe, expect, it } from 'vitest';
import { createNoise } from '../../../firmware-protocol/emulator/noise.ts';
import { probeUses } from '../../../server/weld/probe.ts';
import { type Signal, secondOf, soundSignal, suspectsOf, type Volts } from '../../support/judged-voltages.ts';
import { plainJoint } from '../../support/plain-joint.ts';

const names = ['T1', 'T2', 'T3'];
const joint = plainJoint({
  probes: names.map((id, index) => ({
    id,
    board: 'board-1',
    channel: index + 1,
    thermocouple: 'K',
    use: probeUses[0],
    place: { part: 'plate', side: index === 0 ? 'A' : 'B', face: 'front', distanceMillimetres: 75 + index },
  })),
});

const noise = createNoise(3);
/** 20 degrees, and after five minutes 6 K a minute; 0.8 microvolts of noise, and terminals that warm slowly. */
const course = (second: number): number => 20 + Math.max(0, second - 300) / 10;
const sound = (second: number, more = 0): Volts => {
  const { microvolts, terminalsCelsius } = soundSignal(course(second) + more, 22 + second / 1000);
  return { microvolts: microvolts + 0.8 * noise.bell(), terminalsCelsius };
};

/** All sound but the first, from a second on. */
const found = (seconds: number, from: number, faulty: (second: number, healthy: Volts) => Signal) =>
  suspectsOf(joint, seconds, (second) => {
    const first = sound(second);
    return { T1: second < from ? first : faulty(second, first), T2: sound(second, 2), T3: sound(second, -3) };
  }).map(({ sign, sure, probe, from: since, knownAt }) => ({
    sign,
    sure,
    probe,
    since: secondOf(since),
    known: secondOf(knownAt),
  }));

describe('a sound probe', () => {
  it('shows nothing in an hour', () => expect(found(3600, 0, (_, healthy) => healthy)).toEqual([]));
  it('may lose a reading, and may jump once', () =>
    expect(
      found(1200, 0, (second, healthy) => (second === 500 ? 'open' : second === 700 ? soundSignal(200) : healthy)),
    ).toEqual([]));
  it('may show the same whole degree for as long as its place keeps it', () => {
    const whole = (second: number): Volts => soundSignal(Math.round(course(Math.min(second, 900))), 25);
    expect(suspectsOf(joint, 3600, (second) => ({ T1: whole(second), T2: whole(second), T3: whole(second) }))).toEqual(
      [],
    );
  });
});

describe('a stuck value', () => {
  it('is clear in half a minute, since noise alone would have moved it', () => {
    let held: Volts | undefined;
    const [only, ...more] = found(700, 600, (_, healthy) => (held ??= healthy));
    expect(more).toEqual([]);
    expect(only).toMatchObject({ sign: 'stuck', sure: 'clear', probe: 'T1', since: 600 });
    expect(only!.known).toBeLessThanOrEqual(645);
  });
  it('of an instrument with coarse numbers takes company that moved', () => {
    const coarse = (second: number): Volts => soundSignal(Math.round(course(second)), 25);
    const signs = suspectsOf(joint, 1800, (second) => ({
      T1: coarse(Math.min(second, 700)),
      T2: coarse(second),
      T3: coarse(second),
    }));
    expect(signs).toHaveLength(1);
    expect(signs[0]).toMatchObject({ sign: 'stuck', sure: 'likely', probe: 'T1' });
  });
});

describe('a dead input', () => {
  it('reads its terminals, which tells something once the others are warm', () => {
    const [only, ...more] = found(1500, 0, (_, { terminalsCelsius }) => ({
      microvolts: 0.8 * noise.bell(),
      terminalsCelsius,
    }));
    expect(more).toEqual([]);
    expect(only).toMatchObject({ sign: 'dead-input', sure: 'clear', probe: 'T1' });
    // 15 K above the terminals, and half of that two minutes before.
    expect(only!.known).toBeGreaterThan(450);
    expect(only!.known).toBeLessThan(620);
  });
});

describe('a loose wire', () => {
  it('jumps as no steel can', () => {
    const [only, ...more] = found(900, 400, (second, healthy) =>
      second % 20 === 0 ? { ...healthy, microvolts: healthy.microvolts - 600 } : healthy,
    );
    expect(more).toEqual([]);
    expect(only).toMatchObject({ sign: 'open', probe: 'T1', since: 400 });
    expect(only!.known).toBeLessThanOrEqual(450);
  });
  it('loses single readings', () => {
    const [only, ...more] = found(900, 400, (second, healthy) => (second % 30 === 0 ? 'open' : healthy));
    expect(more).toEqual([]);
    expect(only).toMatchObject({ sign: 'open', sure: 'clear', probe: 'T1' });
  });
});

describe('a probe that never rests', () => {
  const kinds = (faulty: (second: number) => number) =>
    found(900, 400, (second, { microvolts, terminalsCelsius }) => ({
      microvolts: microvolts + faulty(second),
      terminalsCelsius,
    })).map(({ sign }) => sign);
  /** Some 15 K of flicker and more, never below the part. */
  const flame = (): number => 2000 + 600 * noise.bell();
  it('has the heater at its tip where it is above the others throughout', () =>
    expect(kinds(flame)).toEqual(['tip-on-heater']));
  it('floats where it goes below them too, since a tip on a heater is never colder than the part', () =>
    expect(kinds((second) => (second < 450 ? flame() : -2000 + 600 * noise.bell()))).toEqual([
      'tip-on-heater',
      'open',
    ]));
});

describe('the bus of a converter', () => {
  const signOf = (faulty: (second: number, healthy: Volts) => Signal) =>
    found(700, 600, faulty).map(({ sign, probe }) => ({ sign, probe }));
  it('gives zeros', () =>
    expect(signOf(() => ({ microvolts: 0, terminalsCelsius: 0 }))).toEqual([{ sign: 'bus-zeros', probe: 'T1' }]));
  it('gives ones', () =>
    expect(signOf(() => ({ microvolts: -0.1875 * 41.276, terminalsCelsius: -0.0625 }))).toEqual([
      { sign: 'bus-ones', probe: 'T1' },
    ]));
  it('doubles', () =>
    expect(
      signOf((_, { microvolts, terminalsCelsius }) => ({
        microvolts: 2 * microvolts,
        terminalsCelsius: 2 * terminalsCelsius,
      })),
    ).toEqual([{ sign: 'bus-doubled', probe: 'T1' }]));
});
