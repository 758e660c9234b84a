/** What the judge keeps in order to go back must be what it saw. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { keepScan, keptScan } from '../../server/judgement/kept-scan.ts';
import type { Scan } from '../../server/weld/scan.ts';
import { scansOf } from '../support/arbitrary-scans.ts';

const withoutRaw = (scan: Scan): Scan => ({
  ...scan,
  values: scan.values.map((value) => ({ ...value, raw: { form: 'none' } })),
});

test('a kept scan comes back as it was, but for the raw numbers that no rule reads', () => {
  fc.assert(
    fc.property(scansOf(5), (scans) => {
      let probes: readonly string[] | undefined;
      for (const scan of scans) {
        const kept = keepScan(scan, probes);
        probes = kept.probes;
        expect(keptScan(kept)).toEqual(withoutRaw(scan));
      }
    }),
  );
});

test('scans of the same probes share the list of their names', () => {
  fc.assert(
    fc.property(scansOf(1), ([scan]) => {
      const first = keepScan(scan!);
      expect(keepScan(structuredClone(scan!), first.probes).probes).toBe(first.probes);
    }),
  );
});
