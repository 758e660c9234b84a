/**
 * The emulator's thermocouple voltages against NIST Standard Reference Database 60 (a work of the United
 * States Government, public domain): all printed points from where the emulator's tables begin to where they end, read
 * from the test data of the same source. The emulator holds each tenth of them and reads between the lines.
 */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { celsiusAt, microvoltsAt } from '../../firmware-protocol/emulator/voltage.ts';

interface Printed {
  readonly types: Readonly<Record<string, { readonly firstCelsius: number; readonly millivolts: readonly number[] }>>;
}

const printed = JSON.parse(readFileSync(new URL('./nist-srd-60.json', import.meta.url), 'utf8')) as Printed;

describe('voltage of the emulated thermocouples', () => {
  it.each([
    ['K', -200, 800],
    ['J', -200, 800],
    ['T', -200, 400],
    ['E', -200, 800],
    ['N', -200, 800],
    ['R', -50, 800],
    ['S', -50, 800],
  ] as const)('type %s lies within a microvolt of each printed degree from %i to %i °C', (type, from, to) => {
    const table = printed.types[type]!;
    let worst = 0;
    let worstBack = 0;
    for (let celsius = from; celsius <= to; celsius += 1) {
      const expected = table.millivolts[celsius - table.firstCelsius]! * 1000;
      const found = microvoltsAt(type, celsius)!;
      worst = Math.max(worst, Math.abs(found - expected));
      worstBack = Math.max(worstBack, Math.abs(celsiusAt(type, found)! - celsius));
    }
    expect(worst).toBeLessThan(1.3);
    expect(worstBack).toBeLessThan(1e-6);
  });

  it('is unknown outside the printed lines', () => {
    expect(microvoltsAt('K', -200.1)).toBeUndefined();
    expect(microvoltsAt('J', 800.1)).toBeUndefined();
    expect(microvoltsAt('T', 400.1)).toBeUndefined();
    expect(microvoltsAt('K', Number.NaN)).toBeUndefined();
    expect(celsiusAt('K', 40_000)).toBeUndefined();
    expect(celsiusAt('K', Number.NaN)).toBeUndefined();
  });
});
