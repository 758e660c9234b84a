/**
 * Reads what lies in a record by FORMAT.md alone: nothing of the program is imported. It shows that the page is enough, and
 * holds the program to it.
 */
import { readFileSync } from 'node:fs';
import { inflateRawSync } from 'node:zlib';

const page = readFileSync(new URL('../../server/record/FORMAT.md', import.meta.url), 'utf8');
export const example = (name: string): string => {
  const found = new RegExp(`^\`\`\`example ${name}\\n(.*)\\n\`\`\`$`, 'm').exec(page);
  if (found?.[1] === undefined) throw new Error(`FORMAT.md has no example "${name}"`);
  return found[1];
};

/** Section 6: the canonical bytes of an entry. */
export function entryByHand(stored: Uint8Array): Buffer {
  if (stored[0] !== 1) return Buffer.from(stored);
  const count = stored[1]!;
  const hashes = Array.from({ length: count }, (_, n) =>
    Buffer.from(stored.subarray(2 + 32 * n, 34 + 32 * n)).toString('hex'),
  );
  const dictionary = Buffer.from(JSON.parse(`"${example('words')}"`) as string);
  const rest = inflateRawSync(stored.subarray(2 + 32 * count), { dictionary }).toString();
  return Buffer.from(rest.replaceAll('\u0000', () => hashes.shift()!));
}

/** Section 5: the scans' bytes. */
export function scansByHand(packed: Uint8Array): Buffer {
  if (packed[0] !== 7) return inflateRawSync(packed);
  const at = { front: 1, code: 0, bit: 0 };
  const whole = (): number => {
    let [value, weight] = [0, 1];
    for (;;) {
      const byte = packed[at.front++]!;
      value += (byte & 127) * weight;
      weight *= 128;
      if (byte < 128) return value;
    }
  };
  const unfold = (n: number): number => (n % 2 === 0 ? n / 2 : -(n + 1) / 2);
  const signed = (): number => unfold(whole());
  const text = (): string => {
    const length = whole();
    at.front += length;
    return Buffer.from(packed.subarray(at.front - length, at.front)).toString();
  };
  const list = <T>(length: number, item: () => T): T[] => Array.from({ length }, item);
  const runs = (): number[] => list(2 * whole(), whole);
  const bit = (): number => {
    const value = (packed[at.code]! >> (7 - at.bit)) & 1;
    at.bit = (at.bit + 1) % 8;
    if (at.bit === 0) at.code += 1;
    return value;
  };
  const code = (k: number): number => {
    if (k === 31) return 0;
    let ones = 0;
    while (ones < 32 && bit() === 1) ones += 1;
    const bits = list(ones < 32 ? k : 40, bit).reduce((value, each) => 2 * value + each, 0);
    return unfold(ones < 32 ? ones * 2 ** k + bits : bits);
  };
  const foretold = (w: number, u: number[]): number => {
    const c = Math.min(u.length, [2, 4, 6, 20][w]!);
    const last = u.slice(-c).reverse();
    if (w === 1) return Math.floor((2 * last.reduce((s, x) => s + x, 0) + c) / (2 * c));
    if (c === 1) return last[0]!;
    return Math.floor(last.reduce((s, x, index) => s + (4 * c + 2 - 6 * (index + 1)) * x, 0) / (c * (c - 1)));
  };
  const column = (n: number, near: number): number[] => {
    if (n === 0) return [];
    const head = packed[at.front++]!;
    const [way, k] = [Math.floor(head / 32), head % 32];
    const first = near + signed();
    const u = way % 4 === 0 && n > 1 ? [0, signed()] : [0];
    while (u.length < n) u.push(foretold(way % 4, u) + code(k));
    return u.map((each) => first + each * (way >= 4 ? 10 : 1));
  };
  const steps = (values: number[]): number[] => values.map((value, index) => value - (values[index - 1] ?? 0));
  const probesOf = (n: number): object[] => {
    const near = { voltage: 0, coldJunction: 0, temperature: 0, a: 0, b: 0 };
    return list(whole(), () => {
      const probe = text();
      const told = packed[at.front++]!;
      const quality = told === 0 ? runs() : [0, n];
      const form = told === 0 ? runs() : [0, n];
      const texts = told === 0 ? list(whole(), text) : [];
      const reported = told === 0 ? column(whole(), 0) : [];
      const [voltages, temperatures] = told === 0 ? [whole(), whole()] : [n, n];
      const V = column(voltages!, near.voltage);
      const C = column(voltages!, near.coldJunction);
      const T = told === 2 ? plane(n, near, V, C) : column(temperatures!, near.temperature);
      near.voltage = V[0] ?? near.voltage;
      near.coldJunction = C[0] ?? near.coldJunction;
      near.temperature = T[0] ?? near.temperature;
      const columns = { temperature: steps(T), voltage: steps(V), coldJunction: steps(C), reported: steps(reported) };
      return { probe, quality, form, ...columns, text: texts };
    });
  };
  type Near = { voltage: number; coldJunction: number; temperature: number; a: number; b: number };
  const plane = (n: number, near: Near, V: number[], C: number[]): number[] => {
    const k = packed[at.front++]!;
    near.a += signed();
    near.b += signed();
    const e = signed();
    const along = (beyond: number, dV: number, dC: number): number =>
      Math.floor((128 * beyond + near.a * dV + 4 * near.b * dC) / 4096);
    const first = near.temperature + along(0, V[0]! - near.voltage, C[0]! - near.coldJunction) + signed();
    return list(n, () => 0).map((_, i) => (i === 0 ? first : first + along(e, V[i]! - V[0]!, C[i]! - C[0]!) + code(k)));
  };
  const front = whole();
  at.code = at.front + front;
  const order = runs();
  const groups = list(whole(), () => {
    const board = text();
    const n = whole();
    const [boot, inputs, late] = [runs(), runs(), runs()];
    const [sequence, ticks, measuredAt, arrivedAt] = list(4, () => steps(column(n, 0)));
    return { board, boot, inputs, late, sequence, ticks, measuredAt, arrivedAt, probes: probesOf(n) };
  });
  return Buffer.from(inOrder({ format: 1, groups, order }));
}

/** Section 3, as far as scans need it. */
const inOrder = (value: unknown): string => {
  if (Array.isArray(value)) return `[${value.map(inOrder).join(',')}]`;
  if (typeof value === 'string') return JSON.stringify(value.startsWith('#') ? `#${value}` : value);
  if (typeof value !== 'object' || value === null) return String(value);
  const keys = Object.keys(value).sort();
  return `{${keys.map((key) => `${JSON.stringify(key)}:${inOrder((value as Record<string, unknown>)[key])}`).join(',')}}`;
};
