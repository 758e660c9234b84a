/** Several ports at once: found by their USB identity, moved, pulled out and plugged in again, twins, and what must not be opened. */
import { describe, expect, it } from 'vitest';
import { limits } from '../../../server/measure/limits.ts';
import { readUsbRule } from '../../../server/wire/usb-rule.ts';
import { oneBoard } from './bench-board.ts';
import { createYard } from './yard.ts';

const [a, b, c] = ['/dev/ttyUSB0', '/dev/ttyUSB1', '/dev/ttyUSB2'] as const;
const adapter = '1a86:7523';
const foreign = { advance: () => 'G1 X12 ok\n', receive: () => {} };

describe('ports that come and go', () => {
  it('eight are read at once, each under its own board', async () => {
    const yard = createYard([], [adapter]);
    for (let index = 0; index < 8; index += 1)
      yard.plug(`/dev/ttyUSB${index}`, { usb: adapter, speaks: oneBoard({ identity: `PB-${index}`, seed: index }) });
    await yard.run(7000);
    expect(yard.keeper.links.size).toBe(8);
    for (let index = 0; index < 8; index += 1) {
      const samples = yard.samples(`/dev/ttyUSB${index}`);
      expect(samples.length).toBeGreaterThan(2);
      expect(new Set(samples.map(({ board }) => board))).toEqual(new Set([`PB-${index}`]));
    }
    await yard.close();
  });

  it('one that is allowed is found while the station runs, and one that is not is never opened', async () => {
    const yard = createYard([], [`${adapter}:5573`]);
    await yard.run(2000);
    yard.plug(a, { usb: `${adapter}:9999`, speaks: oneBoard({ identity: 'other' }) });
    yard.plug(b, { usb: `${adapter}:5573`, speaks: oneBoard() });
    yard.plug(c, { speaks: oneBoard({ identity: 'no-usb' }) });
    await yard.run(6000);
    expect(yard.last(b).state).toBe('open');
    expect([...yard.openings.keys()]).toEqual([b]);
    await yard.close();
  });

  it('what a connection reads is not opened by any rule, is let go once it is claimed, and found again after', async () => {
    let claims: readonly string[] = [a];
    const yard = createYard([], ['any'], (port) => (claims.includes(port) ? 'Bay 2' : undefined));
    yard.plug(a, { usb: adapter, speaks: foreign });
    yard.plug(b, { usb: adapter, speaks: oneBoard() });
    await yard.run(6000);
    expect([...yard.openings.keys()]).toEqual([b]);
    claims = [a, b];
    await yard.run(2000);
    expect([...yard.keeper.links.keys()]).toEqual([]);
    const before = yard.openings.get(b);
    await yard.run(5000);
    expect(yard.openings.get(b)).toBe(before);
    claims = [a];
    await yard.run(6000);
    expect(yard.openings.get(b)).toBe(before! + 1);
    expect(yard.last(b).state).toBe('open');
    expect(yard.openings.has(a)).toBe(false);
    await yard.close();
  });

  it('one that was named and is claimed says by which connection', async () => {
    const yard = createYard([a], [], () => 'Bay 2');
    yard.plug(a, { usb: adapter, speaks: oneBoard() });
    await yard.run(3000);
    expect(yard.openings.has(a)).toBe(false);
    expect(yard.last(a)).toMatchObject({
      cause: 'the connection "Bay 2" reads this port',
      advice: expect.stringContaining('Take the connection away'),
    });
    await yard.close();
  });

  it('one that returns is opened within 2 s and read within its start and two periods', async () => {
    const yard = createYard([a]);
    const board = oneBoard();
    yard.plug(a, { usb: adapter, speaks: board });
    await yard.run(4000);
    yard.pull(a);
    await yard.run(20_000);
    expect(yard.last(a).state).toBe('refused');
    const before = yard.openings.get(a)!;
    yard.plug(a, { usb: adapter, speaks: board });
    await yard.run(2000);
    expect(yard.openings.get(a)).toBe(before + 1);
    const count = yard.samples().length;
    await yard.run(1000);
    expect(yard.samples().length).toBeGreaterThan(count);
    await yard.close();
  });

  it('what hangs at a named port in place of the device that was there is not opened until somebody asks', async () => {
    const yard = createYard([a]);
    yard.plug(a, { usb: '2341:0043:7593', speaks: oneBoard() });
    await yard.run(3000);
    yard.pull(a);
    await yard.run(500);
    const openings = yard.openings.get(a)!;
    yard.plug(a, { usb: adapter, speaks: oneBoard({ identity: 'spare', boot: 5 }) });
    await yard.run(20_000);
    expect(yard.openings.get(a)).toBe(openings);
    expect(yard.last(a)).toMatchObject({ state: 'refused', leftAlone: true, cause: expect.stringContaining(adapter) });
    expect(yard.keeper.retry(a)).toBe(true);
    await yard.run(3000);
    expect(yard.last(a)).toMatchObject({ state: 'open', board: 'spare' });
    await yard.close();
  });

  it('a foreign device that is found is told and left alone, without a byte written to it', async () => {
    const yard = createYard([], ['any']);
    const written: string[] = [];
    yard.plug(a, { usb: adapter, speaks: { ...foreign, receive: (bytes) => written.push(bytes) } });
    await yard.run(60_000);
    expect(yard.last(a)).toMatchObject({ leftAlone: true, cause: expect.stringContaining('another device') });
    expect([yard.openings.get(a), written]).toEqual([1, []]);
    yard.pull(a);
    await yard.run(2000);
    yard.plug(a, { usb: adapter, speaks: oneBoard() });
    await yard.run(6000);
    expect(yard.last(a)).toMatchObject({ state: 'open', board: 'PB-0001' });
    await yard.close();
  });

  it('more than a station reads are told and not opened', async () => {
    const yard = createYard([], ['any']);
    for (let index = 0; index <= limits.boardsMaximum; index += 1)
      yard.plug(`/dev/ttyUSB${index}`, { usb: adapter, speaks: { advance: () => '', receive: () => {} } });
    await yard.run(1500);
    expect(yard.keeper.links.size).toBe(limits.boardsMaximum);
    expect(yard.told.join()).toContain('is not opened');
    await yard.close();
  });
});

describe('one board on another port', () => {
  it.each([false, true])(
    'goes on with its numbers, and what it measured on the way comes late (told of: %s)',
    async (silently) => {
      const yard = createYard([], [adapter]);
      const board = oneBoard();
      yard.plug(a, { usb: adapter, speaks: board });
      await yard.run(6000);
      yard.pull(a, silently);
      board.advance(4000);
      yard.plug(b, { usb: adapter, speaks: board });
      await yard.run(12_000);
      const numbers = yard.samples().map(({ sample }) => sample.sequence);
      expect(new Set(numbers).size).toBe(numbers.length);
      expect(numbers.toSorted((x, y) => x - y)).toEqual(numbers.map((_, index) => numbers[0]! + index));
      expect(yard.samples(b).some(({ sample }) => sample.resent)).toBe(true);
      expect(yard.last(b)).toMatchObject({ state: 'open', board: 'PB-0001' });
      await yard.close();
    },
  );

  it('that was named by its port is followed by the serial number of its adapter, and never without one', async () => {
    for (const [usb, follows] of [
      ['2341:0043:7593', true],
      [adapter, false],
    ] as const) {
      const yard = createYard([a]);
      const board = oneBoard();
      yard.plug(a, { usb, speaks: board });
      await yard.run(3000);
      yard.pull(a);
      yard.plug(b, { usb, speaks: board });
      await yard.run(7000);
      expect(yard.openings.has(b)).toBe(follows);
      await yard.close();
    }
  });
});

describe('two boards with the same identity', () => {
  it('the second is refused in clear words on screen and for the record, and the first goes on untouched', async () => {
    const yard = createYard([], [adapter]);
    yard.plug(a, { usb: adapter, speaks: oneBoard() });
    await yard.run(6000);
    yard.plug(b, { usb: adapter, speaks: oneBoard({ seed: 9, boot: 40 }) });
    await yard.run(20_000);
    expect(yard.last(b)).toMatchObject({
      state: 'refused',
      leftAlone: true,
      cause: `a second board says that it is PB-0001, which is being read on ${a}`,
      advice: expect.stringContaining('Unplug one of the two'),
    });
    expect(yard.events.filter(({ type }) => type === 'twin')).toMatchObject([{ board: 'PB-0001', port: b, heldOn: a }]);
    expect(yard.samples(b)).toEqual([]);
    expect(new Set(yard.samples().map(({ sample }) => sample.boot))).toEqual(new Set([1]));
    expect(yard.openings.get(b)).toBe(1);
    await yard.close();
  });

  it('the second takes the place of the first only when somebody asks, or plugs it in again', async () => {
    const yard = createYard([], [adapter]);
    yard.plug(a, { usb: adapter, speaks: oneBoard() });
    yard.plug(b, { usb: adapter, speaks: oneBoard({ seed: 9, boot: 40 }) });
    await yard.run(8000);
    const [held, refused] = yard.last(a).state === 'open' ? [a, b] : [b, a];
    yard.pull(held);
    await yard.run(20_000);
    expect(yard.last(refused)).toMatchObject({ state: 'refused', leftAlone: true });
    yard.keeper.retry(refused);
    await yard.run(6000);
    expect(yard.last(refused)).toMatchObject({ state: 'open' });
    await yard.close();
  });
});

describe('a twin that is read since the first is silent', () => {
  it('is another start in the record; the first goes on after it, and none of its numbers is read twice', async () => {
    const yard = createYard([a, b]);
    const first = oneBoard();
    yard.plug(a, { usb: adapter, speaks: first });
    await yard.run(6000);
    yard.pull(a);
    await yard.run(2000);
    yard.plug(b, { usb: adapter, speaks: oneBoard({ seed: 9, boot: 40 }) });
    await yard.run(6000);
    yard.pull(b);
    await yard.run(2000);
    first.advance(10_000);
    yard.plug(a, { usb: adapter, speaks: first });
    await yard.run(8000);
    expect(new Set(yard.samples(b).map(({ sample }) => sample.boot))).toEqual(new Set([40]));
    const own = yard.samples(a).map(({ sample }) => sample.sequence);
    expect(new Set(own).size).toBe(own.length);
    expect(own.at(-1)! - own[0]!).toBeGreaterThan(own.length);
    const holes = yard.events.flatMap((event) => (event.type === 'hole' ? [event.hole] : []));
    expect(holes.filter(({ boot }) => boot === 1)).toMatchObject([{ fate: 'board started again' }]);
    await yard.close();
  });
});

describe('the USB identities that may be opened', () => {
  it('are read as they are typed, and nothing else is', () => {
    expect(readUsbRule('1A86:7523')).toEqual({ vendorId: '1a86', productId: '7523', serialNumber: undefined });
    expect(readUsbRule('2341:0043:A:b')).toEqual({ vendorId: '2341', productId: '0043', serialNumber: 'A:b' });
    expect(readUsbRule('any')).toBe('any');
    for (const text of ['', '1a86', '1a86:752', 'USB0', '1a86:7523:']) expect(readUsbRule(text)).toBeUndefined();
  });
});
