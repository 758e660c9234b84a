/** What the judge keeps in order to go back must be what it saw, in its order. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { createKeptInputs } from '../../server/judgement/kept-inputs.ts';
import { instant } from '../../server/measure/quantity.ts';
import type { Input } from '../../server/weld/entry.ts';
import { scansOf } from '../support/arbitrary-scans.ts';

const note = (at: number): Input => ({
  type: 'act',
  at: instant(at),
  who: 'Ada',
  act: { kind: 'note', text: `at ${at}` },
});

test('kept inputs come back in order, as they were, with their raw numbers', () => {
  fc.assert(
    fc.property(scansOf(5), fc.array(fc.nat(8), { maxLength: 6 }), (scans, places) => {
      const inputs: Input[] = scans.map((scan) => ({ type: 'scan', scan }));
      for (const place of places) inputs.splice(Math.min(place, inputs.length), 0, note(place));
      const kept = createKeptInputs();
      for (const input of inputs) kept.add(input);
      expect(kept.all()).toEqual(inputs);
    }),
  );
});

test('more rows than the table begins with are kept', () => {
  const [scan] = fc.sample(scansOf(1), { numRuns: 1, seed: 1 })[0]!;
  const kept = createKeptInputs();
  for (let count = 0; count < 2000; count += 1) kept.add({ type: 'scan', scan: { ...scan!, sequence: count } });
  expect(kept.all().map((input) => (input.type === 'scan' ? input.scan.sequence : -1))).toEqual(
    Array.from({ length: 2000 }, (_, index) => index),
  );
});
