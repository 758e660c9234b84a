/**
 * A station that is going to be killed: commits without end, seals as time passes, and prints what was
 * acknowledged, only after it was. Arguments: folder, seed.
 */
import { writeSync } from 'node:fs';
import { canonicalText } from '../../server/ledger/canonical.ts';
import { sha256Hex } from '../../server/ledger/hash.ts';
import type { Item } from '../../server/ledger/item.ts';
import { instant } from '../../server/measure/quantity.ts';
import { openRecord } from '../../server/record/store.ts';
import type { Scan } from '../../server/weld/scan.ts';
import { random } from '../support/random.ts';

const [folder = '', seed = '1'] = process.argv.slice(2);
const draw = random(Number(seed));
let now = Date.UTC(2026, 2, 2) + Number(seed) * 86_400_000;
const store = openRecord({ folder, begin: true, program: 'test 1', now: () => instant(now) });

const scan = (sequence: number): Scan => {
  const deciMicrovolts = 60_000 + Math.floor(draw() * 1000);
  const raw = { form: 'voltage', deciMicrovolts, coldJunction: 23_000 };
  const values = ['A1', 'A2', 'A3'].map((probe) => ({ probe, quality: 'good', temperature: 150_000 + sequence, raw }));
  const common = { board: 'b', boot: 1, sequence, ticks: sequence, late: false, inputs: 0 };
  return { ...common, measuredAt: instant(now), arrivedAt: instant(now), values: values as unknown as Scan['values'] };
};
const item = (n: number): Item => {
  const chain = draw() < 0.5 ? 'joint-1' : 'joint-2';
  if (draw() < 0.8) return { type: 'scan', chain, scan: scan(n) };
  const body = { kind: 'note', text: `note ${n} ${'x'.repeat(Math.floor(draw() * 3000))}` };
  return { type: 'entry', chain, at: instant(now), who: 'R. Ahlgren', class: 'input', kind: 'note', body };
};

for (let n = 0; ; n += 1) {
  now += Math.floor(draw() * 5000);
  const { items } = store.commit(Array.from({ length: 1 + Math.floor(draw() * 5) }, () => item(n)));
  const lines = items.map((kept) => `${kept.position} ${sha256Hex(new TextEncoder().encode(canonicalText(kept)))}\n`);
  writeSync(1, lines.join(''));
  store.sealDue(instant(now));
  if (draw() < 0.05)
    store.putDocument(
      Uint8Array.from({ length: 20_000 }, () => Math.floor(draw() * 256)),
      'image/png',
    );
}
