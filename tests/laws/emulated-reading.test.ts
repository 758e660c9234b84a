/**
 * Two worlds that share no thermocouple code: the emulator makes voltages from printed tables, the station
 * makes temperatures from reference functions. Where both are right they meet within the emulator's noise.
 */
import { describe, expect, it } from 'vitest';
import { decode } from '../../firmware-protocol/codec/decode.ts';
import { createBoard } from '../../firmware-protocol/emulator/board.ts';
import type { DeciMicrovolt, MilliCelsius } from '../../server/measure/quantity.ts';
import { junctionOfVoltage } from '../../server/reading/junction.ts';

describe('an emulated junction read by the station', () => {
  it.each(['K', 'J'] as const)('of type %s has the temperature that it has', (thermocouple) => {
    const board = createBoard({
      identity: 'PB-0001',
      seed: 3,
      channels: [
        { channel: 1, thermocouple, where: { at: 'part', depth: 0, distanceMillimetres: 75 } },
        { channel: 2, thermocouple, where: { at: 'part', depth: 1, distanceMillimetres: 75 } },
        { channel: 3, thermocouple, where: { at: 'air' } },
      ],
    });
    board.heater({ on: true, setPointCelsius: 260 });
    let compared = 0;
    let highest = 0;
    for (let second = 0; second < 3 * 3600; second += 60) {
      const last = board.advance(60_000).split('\n').at(-2)!;
      const decoded = decode(last);
      if (!decoded.ok || decoded.frame.kind !== 'sample') throw new Error(`not a sample: ${last}`);
      for (const { channel, reading } of decoded.frame.values) {
        if (reading.form !== 'voltage') throw new Error('not a voltage');
        const junction = junctionOfVoltage(
          thermocouple,
          reading.deciMicrovolts as DeciMicrovolt,
          (reading.coldJunctionCentiCelsius * 10) as MilliCelsius,
        );
        if (junction.quality !== 'good') throw new Error(junction.quality);
        // Noise of 0.8 microvolts and of 0.01 K at the cold junction: 0.15 K is beyond five deviations.
        expect(Math.abs(junction.temperature / 1000 - board.celsius(channel))).toBeLessThan(0.15);
        highest = Math.max(highest, junction.temperature / 1000);
        compared += 1;
      }
    }
    expect(compared).toBe(3 * 180);
    expect(highest).toBeGreaterThan(240);
  });
});
