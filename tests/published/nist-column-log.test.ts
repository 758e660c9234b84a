/**
 * A real log through the reader: heated steel columns and a bar, 21 thermocouples, published by the NIST Fire
 * Research Division (firemodels/exp, WTC/WTCP1T5.csv; free to copy with its notice). The file is not part of
 * this repository; where it is absent the tests are counted as skipped. Row counts are those of its provenance
 * note: 501 rows, 10 s, -50 to 4950 s, TCU1S missing in 260 rows, TB1S present in 92.
 */
import { existsSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { recompute } from '../../server/reading/recompute.ts';
import type { Probe } from '../../server/weld/probe.ts';
import type { Quality } from '../../server/weld/scan.ts';
import { readLog } from '../../server/wire/log-file.ts';
import { elapsedEpoch } from '../../server/wire/log-time.ts';

const file = new URL('../../../shared/data/nist-wtc-p1t5-steel-columns-and-bar.csv', import.meta.url);

describe.skipIf(!existsSync(file))('the log of the heated steel columns', () => {
  const bytes = existsSync(file) ? readFileSync(file) : new Uint8Array();
  const names = Buffer.from(bytes).toString('utf8').split('\n')[0]!.trim().split(',').slice(1);
  const probes = names.map(
    (id, index): Probe => ({
      id,
      board: index < 16 ? 'log-1' : 'log-2',
      channel: (index % 16) + 1,
      thermocouple: 'K',
      use: 'spare',
    }),
  );
  const log = readLog(bytes, { probes, unit: 'C' });

  it('has its rows, its period and its span, and nothing wrong with it', () => {
    expect(names).toHaveLength(21);
    expect(log).toMatchObject({
      problems: [],
      remarks: [],
      rows: 501,
      periodMilliseconds: 10_000,
      firstAt: elapsedEpoch - 50_000,
      lastAt: elapsedEpoch + 4_950_000,
      timeForm: 'elapsed',
    });
  });

  it('has the gaps and the impossible values that it is known for', () => {
    const counts = new Map<string, Map<Quality, number>>(names.map((name) => [name, new Map()]));
    for (const { values } of log.scans) {
      for (const { probe, quality } of values) {
        const of = counts.get(probe)!;
        of.set(quality, (of.get(quality) ?? 0) + 1);
      }
    }
    const count = (probe: string, quality: Quality): number => counts.get(probe)?.get(quality) ?? 0;
    expect(count('TCU1S', 'no reading')).toBe(260);
    expect(count('TB1S', 'no reading')).toBe(501 - 92);
    for (const bad of ['bad_1', 'bad_2', 'bad_3', 'bad_4', 'bad_5']) expect(count(bad, 'out of range')).toBe(501);
    expect(count('TB4S', 'out of range')).toBeGreaterThan(400);
    expect(count('TCL3S', 'good')).toBe(501);
  });

  it('gives every reading again from the text of its cell', () => {
    for (const { values } of log.scans) {
      for (const value of values) expect(recompute(value, 'K')).toEqual(value);
    }
  });

  it('has all twelve column probes at 150 °C or above first at 3610 s', () => {
    const columns = new Set(names.slice(0, 12));
    const first = [...log.scans].find(({ values }) =>
      values.every(({ probe, temperature }) => !columns.has(probe) || (temperature ?? 0) >= 150_000),
    );
    expect(first && first.measuredAt - elapsedEpoch).toBe(3_610_000);
  });
});
