import { describe, expect, it } from 'vitest';
import type { Fault, Hello, Sample, SampleValue } from '../../../firmware-protocol/codec/frame.ts';
import { faults } from '../../../firmware-protocol/codec/frame.ts';
import type { Instant } from '../../../server/measure/quantity.ts';
import type { ThermocoupleType } from '../../../server/measure/thermocouple.ts';
import { faultPriority, toScan } from '../../../server/reading/scan-of-sample.ts';
import { wiringProblems } from '../../../server/reading/wiring.ts';
import type { Probe } from '../../../server/weld/probe.ts';
import type { ScanValue } from '../../../server/weld/scan.ts';

const hello = (...channels: Hello['channels']): Hello => ({
  kind: 'hello',
  revision: 1,
  board: 'mill-3',
  firmware: '1.0',
  simulated: false,
  boot: 4,
  ticks: 0,
  periodMilliseconds: 1000,
  channels,
  inputs: 8,
  linesKept: 0,
});
const probe = (id: string, channel: number, thermocouple: ThermocoupleType = 'K', board = 'mill-3'): Probe => ({
  id,
  board,
  channel,
  thermocouple,
  use: 'spare',
});
const sample = (...values: SampleValue[]): Sample => ({
  kind: 'sample',
  boot: 4,
  sequence: 17,
  ticks: 17_000,
  resent: false,
  inputs: 5,
  values,
});
const volts = (channel: number, deciMicrovolts: number, cold: number, ...flags: Fault[]): SampleValue => ({
  channel,
  faults: flags,
  reading: { form: 'voltage', deciMicrovolts, coldJunctionCentiCelsius: cold },
});
const degrees = (channel: number, centiCelsius: number): SampleValue => ({
  channel,
  faults: [],
  reading: { form: 'temperature', centiCelsius },
});
const measuredAt = 1000 as Instant;
const arrivedAt = 1200 as Instant;
const voltageBoard = hello({ channel: 1, form: 'voltage', thermocouple: 'K' });
const one = (said: Hello, value: SampleValue, thermocouple: ThermocoupleType = 'K'): ScanValue =>
  toScan({ hello: said, sample: sample(value), probes: [probe('T1', 1, thermocouple)], measuredAt, arrivedAt })
    .values[0]!;

describe('a sample becomes a scan', () => {
  it('with its own times and numbers, and only the probes of its board, in the order of the joint', () => {
    const probes = [probe('T2', 2), probe('X', 1, 'K', 'other'), probe('T1', 1)];
    const scan = toScan({
      hello: voltageBoard,
      sample: { ...sample(volts(1, 51_379, 2500), volts(9, 1, 2500)), resent: true },
      probes,
      measuredAt,
      arrivedAt,
    });
    expect(scan).toEqual({
      board: 'mill-3',
      boot: 4,
      sequence: 17,
      ticks: 17_000,
      measuredAt,
      arrivedAt,
      late: true,
      inputs: 5,
      values: [
        { probe: 'T2', quality: 'no reading', raw: { form: 'none' } },
        {
          probe: 'T1',
          quality: 'good',
          temperature: expect.any(Number),
          raw: { form: 'voltage', deciMicrovolts: 51_379, coldJunction: 25_000 },
        },
      ],
    });
  });

  it('and makes the cold junction good in voltage', () => {
    // NIST SRD 60, type K: 6.138 mV at 150 °C, 1.000 mV at 25 °C; so 5.138 mV measured at 25 °C. Rounding of the print: 0.03 K.
    expect(Math.abs(one(voltageBoard, volts(1, 51_380, 2500)).temperature! - 150_000)).toBeLessThan(30);
    // Adding temperatures instead would give the 125.6 °C of 5.138 mV and 25 °C: 150.6.
    expect(Math.abs(one(voltageBoard, volts(1, 51_380, 2500)).temperature! - 150_600)).toBeGreaterThan(500);
    // Type J: 10.779 mV at 200 °C, 1.019 mV at 20 °C.
    expect(Math.abs(one(voltageBoard, volts(1, 97_600, 2000), 'J').temperature! - 200_000)).toBeLessThan(20);
  });

  it('and chooses the branch of the inverse on the sum', () => {
    // -0.2 mV against 25 °C is about 20 °C, above the ice point although the measured voltage is below zero.
    const value = one(voltageBoard, volts(1, -2_020, 2500));
    expect(Math.abs(value.temperature! - 20_000)).toBeLessThan(40);
  });

  it('and reads its own cold junction exactly where the wire gives nothing', () => {
    expect(one(voltageBoard, volts(1, 0, 2_137))).toMatchObject({ quality: 'good', temperature: 21_370 });
  });
});

describe('qualities', () => {
  it('believe a fault before the number beside it, the first to look for in front', () => {
    const value = one(voltageBoard, volts(1, 51_379, 2500, 'out of range', 'short to supply', 'open'));
    expect(value).toEqual({
      probe: 'T1',
      quality: 'open',
      raw: { form: 'voltage', deciMicrovolts: 51_379, coldJunction: 25_000 },
    });
    expect(new Set(faultPriority)).toEqual(new Set(faults));
    for (let index = 0; index < faultPriority.length; index += 1) {
      const flags = faultPriority.slice(index).reverse();
      expect(one(voltageBoard, volts(1, 51_379, 2500, ...flags)).quality).toBe(faultPriority[index]);
    }
  });

  it('keep a fault without a number', () => {
    expect(one(voltageBoard, { channel: 1, faults: ['open'], reading: { form: 'none' } })).toEqual({
      probe: 'T1',
      quality: 'open',
      raw: { form: 'none' },
    });
    expect(one(voltageBoard, { channel: 1, faults: [], reading: { form: 'none' } }).quality).toBe('no reading');
  });

  it.each([
    [-4000, 'good'],
    [-4001, 'cold junction out of range'],
    [10_500, 'good'],
    [10_501, 'cold junction out of range'],
    [25_500, 'cold junction out of range'],
  ])('of a cold junction at %i hundredths', (cold, quality) => {
    expect(one(voltageBoard, volts(1, 10_000, cold)).quality).toBe(quality);
  });

  it('are out of range outside the type, and where the function has no temperature', () => {
    expect(one(voltageBoard, volts(1, 549_000, 2500)).quality).toBe('out of range');
    expect(one(voltageBoard, volts(1, 1_000_000, 2500)).quality).toBe('out of range');
    expect(one(voltageBoard, volts(1, -68_910, 2500)).quality).toBe('good'); // -5.891 mV: -200 °C
    expect(one(voltageBoard, volts(1, -69_000, 2500)).quality).toBe('out of range');
  });

  it('refuse type B at preheat temperatures', () => {
    expect(one(voltageBoard, volts(1, 900, 2500), 'B').quality).toBe('out of range');
    expect(one(voltageBoard, volts(1, 48_340, 2500), 'B')).toMatchObject({ quality: 'good' });
    expect(one(voltageBoard, volts(1, 48_340, -500), 'B').quality).toBe('cold junction out of range');
  });

  it('take the pattern of a dead data line for no reading, and nothing like it', () => {
    expect(one(voltageBoard, volts(1, 0, 0))).toEqual({
      probe: 'T1',
      quality: 'no reading',
      raw: { form: 'voltage', deciMicrovolts: 0, coldJunction: 0 },
    });
    expect(one(voltageBoard, volts(1, 1, 0)).quality).toBe('good');
    expect(one(voltageBoard, volts(1, 0, 1)).quality).toBe('good');
    const shown = hello({ channel: 1, form: 'temperature', thermocouple: 'K' });
    expect(one(shown, degrees(1, 0))).toMatchObject({ quality: 'good', temperature: 0 });
  });

  it('never carry a temperature unless good, and never minus zero', () => {
    expect('temperature' in one(voltageBoard, volts(1, 51_379, 2500, 'open'))).toBe(false);
    const shown = hello({ channel: 1, form: 'temperature', thermocouple: 'K' });
    expect(Object.is(one(shown, degrees(1, -0)).temperature, 0)).toBe(true);
  });
});

describe('which thermocouple type counts', () => {
  it('is the joint’s for a voltage, whatever the board says of the wire', () => {
    const asJ = hello({ channel: 1, form: 'voltage', thermocouple: 'J' });
    expect(one(asJ, volts(1, 51_379, 2500))).toEqual(one(voltageBoard, volts(1, 51_379, 2500)));
    expect(wiringProblems(asJ, [probe('T1', 1)])).toMatchObject([
      { probe: 'T1', kind: 'board states another type', joint: 'K', board: 'J' },
    ]);
  });

  it('must be the instrument’s own for a temperature: else it is no reading, with its number kept', () => {
    const asJ = hello({ channel: 1, form: 'temperature', thermocouple: 'J' });
    expect(one(asJ, degrees(1, 15_025))).toEqual({
      probe: 'T1',
      quality: 'no reading',
      raw: { form: 'temperature', reported: 150_250 },
    });
    expect(one(asJ, degrees(1, 15_025), 'J')).toMatchObject({ quality: 'good', temperature: 150_250 });
    const [problem] = wiringProblems(asJ, [probe('T1', 1)]);
    expect(problem?.kind).toBe('instrument set to another type');
    expect(problem?.message).toMatch(
      /type K in the joint.*type J on channel 1.*not used.*set the instrument or correct/,
    );
  });

  it('is not known for a channel that the hello does not name', () => {
    expect(one(hello(), degrees(1, 15_025)).quality).toBe('no reading');
    expect(wiringProblems(hello(), [probe('T1', 1)])).toMatchObject([{ kind: 'channel not fitted' }]);
  });

  it('is told where it cannot serve, and nothing is told where all agree', () => {
    const asB = hello({ channel: 1, form: 'voltage', thermocouple: 'B' });
    expect(wiringProblems(asB, [probe('T1', 1, 'B')])).toMatchObject([
      { kind: 'type not usable at preheat temperatures' },
    ]);
    expect(wiringProblems(voltageBoard, [probe('T1', 1), probe('X', 1, 'J', 'other')])).toEqual([]);
  });
});
