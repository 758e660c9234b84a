import { describe, expect, it } from 'vitest';
import { thermocoupleTypes, usableRange } from '../../../server/measure/thermocouple.ts';
import { celsiusAt, functionRange, millivoltsAt, slopeAt } from '../../../server/reading/thermocouple.ts';

describe('thermocouple functions', () => {
  it('are zero at the ice point, except where the function itself is not', () => {
    for (const type of thermocoupleTypes) expect(Math.abs(millivoltsAt(type, 0)!)).toBeLessThan(1e-12);
  });

  it('have the slope of their own difference quotient', () => {
    for (const type of thermocoupleTypes) {
      const { lowest, highest } = functionRange(type);
      for (let t = lowest + 1; t < highest - 1; t += 7.3) {
        const quotient = (millivoltsAt(type, t + 1e-3)! - millivoltsAt(type, t - 1e-3)!) / 2e-3;
        expect(Math.abs(slopeAt(type, t)! - quotient), `${type} ${t}`).toBeLessThan(2e-6);
      }
    }
  });

  it('join their ranges without a step', () => {
    // Where the published ranges meet, in microvolts: less than 0.0001, as Monograph 175 has it.
    const joints = [
      ['K', 0],
      ['J', 760],
      ['T', 0],
      ['E', 0],
      ['N', 0],
      ['R', 1064.18],
      ['R', 1664.5],
      ['S', 1064.18],
      ['S', 1664.5],
      ['B', 630.615],
    ] as const;
    for (const [type, t] of joints) {
      const step = millivoltsAt(type, t + 1e-9)! - millivoltsAt(type, t)!;
      expect(Math.abs(step), `${type} ${t}`).toBeLessThan(1.5e-7);
    }
  });

  it('go back from between the degrees as well', () => {
    for (const type of thermocoupleTypes) {
      const { lowest, highest } = usableRange[type];
      for (let t = lowest + 0.137; t < highest; t += 3.71) {
        const back = celsiusAt(type, millivoltsAt(type, t)!);
        expect(back.ok && Math.abs(back.celsius - t) < 1e-9, `${type} ${t}`).toBe(true);
      }
    }
  });

  it('have no value outside their range', () => {
    expect(millivoltsAt('K', 1372.001)).toBeUndefined();
    expect(millivoltsAt('K', -270.001)).toBeUndefined();
    expect(millivoltsAt('K', Number.NaN)).toBeUndefined();
    expect(celsiusAt('K', 55)).toEqual({ ok: false, reason: expect.stringContaining('-270 to 1372 °C') });
    expect(celsiusAt('K', Number.NaN).ok).toBe(false);
    expect(celsiusAt('T', 20.873).ok).toBe(false);
  });

  it('refuse type B below its usable range and say why', () => {
    const refused = celsiusAt('B', 0.1);
    expect(refused.ok).toBe(false);
    expect(!refused.ok && refused.reason).toMatch(/type B.*250 °C.*two temperatures.*use type K or N/);
    expect(celsiusAt('B', 0.3).ok).toBe(true);
    expect(celsiusAt('B', 14)).toEqual({ ok: false, reason: expect.stringContaining('outside the range of type B') });
  });
});
