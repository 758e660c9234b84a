/**
 * The thermocouple functions against what NIST printed: Standard Reference Database 60, one-degree tables
 * on the ITS-90, all 12,026 points. The tables (nist-srd-60.json) are a work of the United States
 * Government and in the public domain. They are printed to 0.001 mV, so 0.0005 mV is their own rounding.
 */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { thermocoupleTypes, usableRange } from '../../server/measure/thermocouple.ts';
import { celsiusAt, millivoltsAt, slopeAt } from '../../server/reading/thermocouple.ts';

interface Table {
  readonly firstCelsius: number;
  readonly millivolts: readonly number[];
}
const tables = (
  JSON.parse(readFileSync(new URL('./nist-srd-60.json', import.meta.url), 'utf8')) as {
    readonly types: Readonly<Record<(typeof thermocoupleTypes)[number], Table>>;
  }
).types;

describe('NIST SRD 60', () => {
  it('has 12,026 printed points', () => {
    const points = thermocoupleTypes.map((type) => tables[type].millivolts.length);
    expect(points.reduce((sum, count) => sum + count, 0)).toBe(12_026);
  });

  it.each(thermocoupleTypes)('type %s: every printed voltage within 0.0006 mV', (type) => {
    const { firstCelsius, millivolts } = tables[type];
    const off = millivolts
      .map((printed, index) => Math.abs(millivoltsAt(type, firstCelsius + index)! - printed))
      .reduce((worst, error) => Math.max(worst, error), 0);
    expect(off).toBeLessThan(0.0006);
    // Were the table read wrongly, nothing would be off by the rounding of the print.
    expect(off).toBeGreaterThan(0.0004);
  });

  it.each(thermocoupleTypes)(
    'type %s: there and back at every printed degree within 0.000000001 °C where usable',
    (type) => {
      const { firstCelsius, millivolts } = tables[type];
      const lowest = type === 'B' ? usableRange.B.lowest : firstCelsius;
      let points = 0;
      let worst = 0;
      let worstBelow = 0;
      for (let degree = lowest; degree < firstCelsius + millivolts.length; degree += 1) {
        const back = celsiusAt(type, millivoltsAt(type, degree)!);
        if (!back.ok) throw new Error(`${type} ${degree}: ${back.reason}`);
        const error = Math.abs(back.celsius - degree);
        if (degree < usableRange[type].lowest) worstBelow = Math.max(worstBelow, error);
        else worst = Math.max(worst, error);
        points += 1;
      }
      expect(points).toBeGreaterThan(600);
      expect(worst).toBeLessThan(1e-9);
      // Toward -270 °C the voltage hardly changes and the last bits of the sum show.
      expect(worstBelow).toBeLessThan(1e-6);
    },
  );

  it.each(thermocoupleTypes)(
    'type %s: the printed voltage read back lies within its rounding of the degree',
    (type) => {
      const { firstCelsius, millivolts } = tables[type];
      millivolts.forEach((printed, index) => {
        const degree = firstCelsius + index;
        const slope = slopeAt(type, degree)!;
        // Below, the print is too coarse to tell one degree from the next.
        if (degree < usableRange[type].lowest || slope < 0.001) return;
        const back = celsiusAt(type, printed);
        if (!back.ok) {
          // Only the printed ends may fall outside by their own rounding.
          const isEnd =
            degree === usableRange[type].lowest || degree === firstCelsius || index === millivolts.length - 1;
          expect(isEnd, `${type} ${degree}: ${back.reason}`).toBe(true);
          return;
        }
        expect(Math.abs(back.celsius - degree)).toBeLessThan(0.0006 / slope);
      });
    },
  );
});
