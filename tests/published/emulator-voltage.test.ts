/**
 * The emulator's thermocouple voltages against NIST Standard Reference Database 60 (a work of the United
 * States Government, public domain): all printed points of types K and J from -100 to 800 °C, read from the
 * test data of the same source. The emulator holds each tenth of them and reads between the lines.
 */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { microvoltsAt } from '../../firmware-protocol/emulator/voltage.ts';

interface Printed {
  readonly types: Readonly<Record<string, { readonly firstCelsius: number; readonly millivolts: readonly number[] }>>;
}

const printed = JSON.parse(readFileSync(new URL('./nist-srd-60.json', import.meta.url), 'utf8')) as Printed;

describe('voltage of the emulated thermocouples', () => {
  it.each(['K', 'J'] as const)('type %s lies within a microvolt of each printed degree', (type) => {
    const table = printed.types[type]!;
    let worst = 0;
    for (let celsius = -100; celsius <= 800; celsius += 1) {
      const expected = table.millivolts[celsius - table.firstCelsius]! * 1000;
      worst = Math.max(worst, Math.abs(microvoltsAt(type, celsius)! - expected));
    }
    expect(worst).toBeLessThan(1.3);
  });

  it('is unknown outside the printed lines', () => {
    expect(microvoltsAt('K', -100.1)).toBeUndefined();
    expect(microvoltsAt('J', 800.1)).toBeUndefined();
    expect(microvoltsAt('K', Number.NaN)).toBeUndefined();
  });
});
