/** Scans that the example of FORMAT.md packs: even steps of time, an unrest of the voltage, temperatures that follow it. */
import type { Scan, ScanValue } from '../../server/weld/scan.ts';
import { at } from './record.ts';

const unrest = [0, 4, -3, 7, 2, -6, 1, 5, -2, 0, 8, -4, 3, -1, 6];

export const packedExample: readonly Scan[] = unrest.map((more, n) => {
  const deciMicrovolts = 52_100 + 2 * n + more;
  const coldJunction = 23_500 + 10 * (more % 3);
  const temperature = 150_125 + Math.round(2.44 * (deciMicrovolts - 52_100) + 0.98 * (coldJunction - 23_500));
  const raw = { form: 'voltage', deciMicrovolts, coldJunction };
  return {
    ...{ board: 'K2', boot: 7, sequence: 410 + n, ticks: 410_250 + 1000 * n, late: false, inputs: 0 },
    ...{ measuredAt: at(1000 * n - 40), arrivedAt: at(1000 * n) },
    values: [{ probe: 'A1', quality: 'good', temperature, raw } as ScanValue],
  };
});
