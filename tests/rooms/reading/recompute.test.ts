import { describe, expect, it } from 'vitest';
import type { DeciMicrovolt, MilliCelsius } from '../../../server/measure/quantity.ts';
import { recompute } from '../../../server/reading/recompute.ts';
import type { ScanValue } from '../../../server/weld/scan.ts';

const raw = {
  form: 'voltage',
  deciMicrovolts: 51_379 as DeciMicrovolt,
  coldJunction: 25_000 as MilliCelsius,
} as const;
const believed: ScanValue = { probe: 'T1', quality: 'good', temperature: 1 as MilliCelsius, raw };

describe('a kept value made again from its raw number', () => {
  it('does not look at the temperature that stands beside it', () => {
    const again = recompute(believed, 'K');
    expect(again).toMatchObject({ quality: 'good', probe: 'T1', raw });
    expect(Math.abs(again.temperature! - 150_000)).toBeLessThan(30);
    expect(recompute(again, 'K')).toEqual(again);
  });

  it('follows a corrected type: a K wire that was taken for J', () => {
    // Worked out apart from this program from the NIST functions: 121.0 °C at 150 °C with the terminals at 25 °C.
    expect(Math.abs(recompute(believed, 'J').temperature! - 121_000)).toBeLessThan(100);
    // As N it would show 196.5 °C.
    expect(Math.abs(recompute(believed, 'N').temperature! - 196_500)).toBeLessThan(100);
  });

  it('may lose its belief and then carries no temperature', () => {
    const hot = { ...believed, raw: { ...raw, deciMicrovolts: 300_000 as DeciMicrovolt } };
    expect(recompute(hot, 'K').quality).toBe('good');
    expect(recompute(hot, 'T')).toEqual({ probe: 'T1', quality: 'out of range', raw: hot.raw });
  });

  it('keeps a fault, which is not in the raw number', () => {
    const faulty: ScanValue = { probe: 'T1', quality: 'open', raw };
    expect(recompute(faulty, 'K')).toBe(faulty);
  });

  it('makes an instrument’s own temperature and the text of a log again', () => {
    const shown: ScanValue = { ...believed, raw: { form: 'temperature', reported: 150_250 as MilliCelsius } };
    expect(recompute(shown, 'K').temperature).toBe(150_250);
    const text = (words: string): ScanValue => ({ ...believed, raw: { form: 'text', text: words } });
    expect(recompute(text('1,5E+02'), 'K').temperature).toBe(150_000);
    expect(recompute(text('3.32E+03'), 'K').quality).toBe('out of range');
    expect(recompute(text('OPEN'), 'K').quality).toBe('no reading');
    expect(recompute({ ...believed, raw: { form: 'none' } }, 'K').quality).toBe('no reading');
  });
});
