/**
 * Each kind of mishap as the station would read it, against what the loop sums and the printed tables say (type K,
 * IEC 60584-1; the numbers reckoned apart from both the emulator and the station).
 */
import { describe, expect, it } from 'vitest';
import { withMishaps } from '../../../firmware-protocol/emulator/mishaps/inject.ts';
import type { Mishap } from '../../../firmware-protocol/emulator/mishaps/mishap.ts';
import { sampleValue } from '../../../firmware-protocol/emulator/signal.ts';
import { highest, one, reads, run, series, signal, steady } from './mishap-signals.ts';

describe('wiring', () => {
  it('open is flagged without a number, always or for its share of the time', () => {
    const [now] = withMishaps(run(1), one('open'));
    expect(sampleValue(now!.channels[0]!, 'voltage')).toEqual({
      channel: 1,
      faults: ['open'],
      reading: { form: 'none' },
    });
    const lost = series(withMishaps(run(1000), one('open', { severity: 0.8 }))).filter(Number.isNaN).length;
    expect(lost).toBeGreaterThan(750);
    expect(lost).toBeLessThan(850);
  });

  it('floating wanders without a flag, about the terminals in the end', () => {
    const wandered = series(withMishaps(run(400), one('floating'))).slice(100);
    const mean = wandered.reduce((sum, each) => sum + each, 0) / wandered.length;
    expect(Math.abs(mean - 25)).toBeLessThan(20);
    expect(Math.max(...wandered) - Math.min(...wandered)).toBeGreaterThan(30);
  });

  it.each([
    ['dead', 1, 60, 60],
    ['as good as the leads, at 25 °C', 0.5, 25, 87.3],
    ['ten times the leads, at 25 °C', 1 / 11, 25, 138.4],
    ['a hundred times the leads, at 25 °C', 1 / 101, 25, 148.7],
  ])('a short, %s', (_what, severity, head, expected) => {
    expect(steady({ head }, ...one('short', { severity }))).toBeCloseTo(expected, 0);
  });

  it('a dead input reads the terminals, whatever the part does', () => {
    expect(Math.abs(steady({ tip: 20 }, ...one('dead-input')) - 25)).toBeLessThan(0.15);
    expect(Math.abs(steady({ tip: 300, terminals: 31 }, ...one('dead-input')) - 31)).toBeLessThan(0.15);
  });

  it.each([
    [25, 25],
    [50, -0.6],
    [100, -55.8],
    [150, -120],
  ])('reversed at the terminals at %d °C', (tip, expected) => {
    expect(Math.abs(steady({ tip }, ...one('reversed-terminal')) - expected)).toBeLessThan(0.1);
  });

  it.each([
    ['reversed-extension', 60, 25, 79.98],
    ['reversed-extension', 40, 25, 119.9],
    ['reversed-extension', 15, 25, 170.1],
    ['reversed-extension', 25, 25, 150],
    ['copper-extension', 60, 25, 114.7],
    ['copper-extension', 40, 25, 134.9],
    ['copper-extension', 25, 25, 150],
  ] as const)('%s with the head at %d °C and the terminals at %d °C', (kind, head, terminals, expected) => {
    expect(Math.abs(steady({ head, terminals }, ...one(kind)) - expected)).toBeLessThan(0.1);
  });

  it('a head that the part warms more makes a foreign cable worse', () => {
    // Twice as far above the air: 100 °C.
    expect(Math.abs(steady({ head: 60 }, ...one('copper-extension', { severity: 30 })) - 74.2)).toBeLessThan(1);
    expect(Math.abs(steady({ head: 60 }, ...one('copper-extension', { severity: 0 })) - 155)).toBeLessThan(0.2);
  });

  it.each([
    ['J', 189.8, 258.5],
    ['T', 164.3, 228.9],
    ['N', 113.3, 152.9],
    ['E', 228.8, 317.3],
    ['S', 46.7, 56.7],
  ] as const)('a %s wire on an input set to K', (wire, at150, at200) => {
    expect(Math.abs(steady({}, ...one('wrong-type', { wire })) - at150)).toBeLessThan(0.15);
    expect(Math.abs(steady({ tip: 200 }, ...one('wrong-type', { wire })) - at200)).toBeLessThan(0.15);
    expect(Math.abs(steady({ tip: 25 }, ...one('wrong-type', { wire })) - 25)).toBeLessThan(0.1);
  });
});

describe('tips', () => {
  it('detached: falls as a bead does, 63 % in its own time, and then wavers about the air', () => {
    const fall = series(withMishaps(run(400), one('detached', { severity: 30 })));
    expect(fall[0]).toBeCloseTo(150, 0);
    expect(Math.abs(fall[30]! - (20 + 130 / Math.E))).toBeLessThan(3);
    expect(Math.abs(fall[390]! - 20)).toBeLessThan(3);
    expect(new Set(fall.slice(200).map((each) => each.toFixed(1))).size).toBeGreaterThan(10);
  });

  it('on the heater: high and restless while it heats, and at the part within half a minute of heat off', () => {
    const course = series(
      withMishaps(
        run(200, (second) => ({ heating: second < 100 ? 1 : 0 })),
        one('tip-on-heater'),
      ),
    );
    const hot = course.slice(20, 100).map((each) => each - 150);
    expect(Math.abs(hot.reduce((sum, each) => sum + each, 0) / hot.length - 60)).toBeLessThan(5);
    expect(Math.max(...hot) - Math.min(...hot)).toBeGreaterThan(20);
    expect(Math.abs(course[130]! - 150)).toBeLessThan(1);
  });

  it('drift grows with time at temperature, and not at ambient', () => {
    const drifted = (tip: number, severity: number): number =>
      series(
        withMishaps(
          run(3601, () => ({ tip })),
          one('drift', { severity }),
        ),
      ).at(-1)! - tip;
    expect(Math.abs(drifted(150, 4) - 5)).toBeLessThan(0.1);
    expect(Math.abs(drifted(150, -4) + 5)).toBeLessThan(0.1);
    expect(Math.abs(drifted(25, 4))).toBeLessThan(0.05);
  });

  it('swapped: each has what the other has', () => {
    const [now] = run(1);
    const apart = { ...now!, channels: [signal(1, { tip: 50 }), signal(2, {}), signal(3, { tip: 90 })] };
    const [swapped] = withMishaps([apart], one('swapped', { other: 3 }));
    expect([1, 2, 3].map((channel) => Math.round(reads(swapped, channel)))).toEqual([90, 150, 50]);
  });
});

describe('from outside', () => {
  it('mains: 100 uV are 2.4 K, whatever the part has', () => {
    for (const tip of [25, 150]) {
      const wave = series(
        withMishaps(
          run(200, () => ({ tip })),
          one('mains-alias'),
        ),
      ).map((each) => each - tip);
      expect(highest(wave)).toBeGreaterThan(2.3);
      expect(highest(wave)).toBeLessThan(2.6);
    }
  });

  it('arc noise: on all channels together while the arc burns, and none without', () => {
    const course = withMishaps(
      run(200, undefined, (second) => second >= 100),
      one('arc-noise', { channel: 'all' }),
    );
    const [first, third] = [series(course), series(course, 3)].map((each) => each.map((value) => value - 150));
    expect(highest(first!.slice(0, 100))).toBeLessThan(0.05);
    expect(highest(first!.slice(100))).toBeGreaterThan(20);
    for (const [second, value] of first!.entries()) {
      if (Math.abs(value) > 1) expect(value * third![second]!).toBeGreaterThan(0);
    }
  });

  it('ground loop: 1 mV between the ends is 25 K, opposite at opposite ends, and steps with the arc', () => {
    const course = withMishaps(
      run(4, undefined, (second) => second > 1),
      one('ground-loop', { channel: 'all' }),
    );
    expect(reads(course[1])).toBeCloseTo(150, 1);
    const [left, middle, right] = [1, 2, 3].map((channel) => reads(course[2], channel));
    expect(Math.abs(left! - right! - 25)).toBeLessThan(0.5);
    expect(middle).toBeCloseTo(150, 1);
  });
});

describe('converters', () => {
  const rising = run(60, (second) => ({ tip: 100 + second / 2 }));

  it('stuck: the same to the digit', () => {
    expect(new Set(series(withMishaps(rising, one('stuck', { fromSeconds: 20 }))).slice(20)).size).toBe(1);
  });

  it('polled too seldom: the same in blocks', () => {
    const course = series(withMishaps(rising, one('slow-poll', { severity: 5 })));
    expect(new Set(course).size).toBe(12);
    for (let block = 0; block < 60; block += 5) expect(new Set(course.slice(block, block + 5)).size).toBe(1);
    expect(course[35]).toBe(series(rising)[35]);
  });

  it('cold junction: 10 K there are 10.1 K at 150 °C, on all channels', () => {
    const [now] = withMishaps(run(1), one('cold-junction-jump', { channel: 'all' }));
    for (const channel of [1, 2, 3]) expect(Math.abs(reads(now, channel) - 160.1)).toBeLessThan(0.1);
  });

  it('the words of a bus that lies low, lies high or slips', () => {
    const word = (kind: Mishap['kind'], rest: Partial<Mishap> = {}) =>
      sampleValue(withMishaps(run(1), one(kind, rest))[0]!.channels[0]!, 'voltage');
    expect(word('bus-zeros')).toMatchObject({
      faults: [],
      reading: { deciMicrovolts: 0, coldJunctionCentiCelsius: 0 },
    });
    const high = { reading: { deciMicrovolts: -77, coldJunctionCentiCelsius: -6 } };
    expect(word('bus-ones')).toMatchObject({ ...high, faults: ['open', 'short to ground', 'short to supply'] });
    expect(word('bus-ones', { severity: 0 })).toMatchObject({ ...high, faults: [] });
    expect(word('bus-doubled')).toMatchObject({ reading: { deciMicrovolts: 102_760, coldJunctionCentiCelsius: 5000 } });
    // 150 °C read as about twice that.
    expect(steady({}, ...one('bus-doubled'))).toBeGreaterThan(290);
  });
});
