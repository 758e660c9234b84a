import { describe, expect, it } from 'vitest';
import { withCheck } from '../../../firmware-protocol/codec/check.ts';
import { encode } from '../../../firmware-protocol/codec/encode.ts';
import { oneBoard, setUp } from './bench-board.ts';

describe('a link to one board', () => {
  it('waits out the start of the board and hands on nothing before its hello', async () => {
    const bench = setUp(oneBoard());
    await bench.run(250);
    expect(bench.samples()).toEqual([]);
    await bench.run(5000);
    expect(bench.states()).toEqual(['opening', 'waiting for hello', 'open']);
    expect(bench.events[3]?.type).toBe('hello');
    expect(bench.samples().map(({ sample }) => sample.sequence)).toEqual([0, 1, 2, 3, 4]);
    expect(bench.samples().every(({ board }) => board === 'PB-0001')).toBe(true);
    expect(bench.link.counts()).toMatchObject({ linesBad: 0, linesMissing: 0 });
    await bench.link.close();
  });

  it('asks a board that has been running for its hello, and takes samples only after it', async () => {
    const board = oneBoard();
    board.advance(60_000);
    const bench = setUp(board);
    await bench.run(3000);
    expect(bench.hellos()).toHaveLength(1);
    expect(bench.samples()[0]?.sample.sequence).toBeGreaterThan(50);
    expect(bench.link.counts().linesMissing).toBe(0);
    await bench.link.close();
  });

  it('drops the first partial line and never glues across a replug', async () => {
    const bench = setUp(oneBoard());
    await bench.run(2000);
    const line = encode({ kind: 'heartbeat', command: 9 });
    bench.cable.write(line.slice(0, 9));
    bench.cable.unplug();
    bench.cable.plugIn();
    await bench.clock.advance(1000);
    const before = bench.link.counts();
    bench.cable.write(`${line.slice(9)}\n`);
    await bench.run(50);
    expect(bench.link.counts().linesBad).toBe(before.linesBad);
    expect(bench.link.counts().bytesDropped - before.bytesDropped).toBe(line.length - 9);
    expect(before.bytesDropped).toBeGreaterThanOrEqual(9);
    await bench.link.close();
  });

  it('notices at once when the system tells of the unplugging, and opens again when the port returns', async () => {
    const bench = setUp(oneBoard());
    await bench.run(3000);
    bench.cable.unplug();
    await bench.clock.advance(0);
    expect(bench.states().at(-1)).toBe('lost');
    await bench.clock.advance(60_000);
    const refused = bench.events.filter((event) => event.type === 'link' && event.state === 'refused');
    expect(refused).toHaveLength(1);
    expect(refused[0]).toMatchObject({ advice: expect.stringContaining('/dev/serial/by-id') });
    bench.cable.plugIn();
    await bench.run(6000);
    expect(bench.states().at(-1)).toBe('open');
    await bench.link.close();
  });

  it('notices by the clock when the system says nothing, and counts what never came', async () => {
    const board = oneBoard({ linesKept: 0 });
    const bench = setUp(board);
    await bench.run(3000);
    board.inject({ kind: 'unplugged' });
    await bench.run(2900);
    expect(bench.states().at(-1)).toBe('open');
    await bench.run(200);
    expect(bench.states()).toContain('lost');
    await bench.run(20_000);
    expect(bench.states().at(-1)).toBe('refused');
    board.inject({ kind: 'plugged in' });
    await bench.run(10_000);
    expect(bench.states().at(-1)).toBe('open');
    const sequences = bench.samples().map(({ sample }) => sample.sequence);
    const span = sequences.at(-1)! - sequences[0]! + 1;
    expect(bench.link.counts().linesMissing).toBe(span - sequences.length);
    expect(bench.link.counts().linesMissing).toBeGreaterThan(20);
    await bench.link.close();
  });

  it('waits three periods where that is longer than the shortest silence', async () => {
    const board = oneBoard({ periodMilliseconds: 10_000 });
    const bench = setUp(board);
    await bench.run(11_000);
    board.inject({ kind: 'unplugged' });
    await bench.run(28_000);
    expect(bench.states().at(-1)).toBe('open');
    await bench.run(3000);
    expect(bench.states()).toContain('lost');
    await bench.link.close();
  });

  it('takes a restart of the board for what it is', async () => {
    const board = oneBoard();
    const bench = setUp(board);
    await bench.run(5000);
    board.reboot();
    await bench.run(5000);
    expect(bench.hellos().map(({ hello }) => hello.boot)).toEqual([1, 2]);
    expect(bench.samples().filter(({ sample }) => sample.boot === 2)[0]?.sample.sequence).toBe(0);
    expect(bench.link.counts().linesMissing).toBe(0);
    await bench.link.close();
  });

  it('hands on no sample of a new start whose hello was lost, until it has asked for the hello', async () => {
    const board = oneBoard();
    const bench = setUp(board);
    await bench.run(5000);
    board.reboot();
    board.inject({ kind: 'unplugged' });
    await bench.run(350);
    board.inject({ kind: 'plugged in' });
    await bench.run(4000);
    const order = bench.events.flatMap((event) => {
      if (event.type === 'hello') return [`hello ${event.hello.boot}`];
      return event.type === 'sample' && event.sample.boot === 2 ? ['sample 2'] : [];
    });
    expect(order.slice(0, 3)).toEqual(['hello 1', 'hello 2', 'sample 2']);
    expect(bench.states().slice(-2)).toEqual(['waiting for hello', 'open']);
    await bench.link.close();
  });

  it('reports another board on the same port', async () => {
    const bench = setUp(oneBoard());
    await bench.run(3000);
    bench.put(oneBoard({ identity: 'PB-0002' }));
    await bench.run(3000);
    const last = bench.events.filter((event) => event.type === 'link').at(-1);
    expect(last).toMatchObject({ state: 'open', board: 'PB-0002', cause: expect.stringContaining('PB-0001') });
    expect(bench.samples().at(-1)?.board).toBe('PB-0002');
    await bench.link.close();
  });

  it('counts junk and goes on', async () => {
    const board = oneBoard({ linesKept: 0 });
    const bench = setUp(board);
    await bench.run(3000);
    for (let round = 0; round < 5; round += 1) {
      board.inject({ kind: 'garbage', bytes: 300 });
      await bench.run(1000);
    }
    board.inject({ kind: 'cut line' });
    await bench.run(3000);
    expect(bench.states().at(-1)).toBe('open');
    const counts = bench.link.counts();
    expect(counts.linesBad).toBeGreaterThan(5);
    expect(counts.linesMissing).toBeGreaterThan(0);
    expect(counts.linesMissing).toBeLessThan(9);
    await bench.link.close();
  });

  it('says what it sees where no board of this station answers', async () => {
    const board = oneBoard();
    board.inject({ kind: 'unplugged' });
    const bench = setUp(board);
    await bench.run(12_000);
    const last = bench.events.filter((event) => event.type === 'link').at(-1);
    expect(last).toMatchObject({ state: 'refused', cause: 'nothing comes from this port' });
    await bench.link.close();
  });

  it('refuses a board of another revision and says which', async () => {
    const bench = setUp(oneBoard());
    bench.put({ ...oneBoard(), advance: () => '', receive: () => {} });
    await bench.clock.advance(10);
    bench.cable.write(`\n${withCheck('hello revision=2 board=PB-0009 scale=kelvin')}\n`);
    await bench.clock.advance(0);
    const last = bench.events.filter((event) => event.type === 'link').at(-1);
    expect(last).toMatchObject({ state: 'refused', cause: expect.stringContaining('revision 2') });
    await bench.link.close();
  });

  it('sends commands, hands their replies on, and says when it cannot', async () => {
    const board = oneBoard();
    const bench = setUp(board);
    expect(bench.link.send({ kind: 'heartbeat', command: 1 })).toBe(false);
    await bench.run(2000);
    expect(bench.link.send({ kind: 'lamp', command: 2, state: 'slow' })).toBe(true);
    expect(bench.link.send({ kind: 'period', command: 3, periodMilliseconds: 500 })).toBe(true);
    await bench.run(2000);
    expect(board.outputs().lamp).toBe('slow');
    const ticks = bench.samples().map(({ sample }) => sample.ticks);
    expect(ticks.at(-1)! - ticks.at(-2)!).toBe(500);
    await bench.link.close();
  });

  it('takes lines sent again once each, as late ones', async () => {
    const board = oneBoard({ periodMilliseconds: 500 });
    const bench = setUp(board);
    await bench.run(3000);
    board.inject({ kind: 'unplugged' });
    await bench.run(600);
    board.inject({ kind: 'plugged in' });
    await bench.run(2000);
    bench.link.send({ kind: 'send again', command: 5, fromSequence: 0 });
    await bench.run(1000);
    const sequences = bench.samples().map(({ sample }) => sample.sequence);
    expect(new Set(sequences).size).toBe(sequences.length);
    expect(bench.samples().filter(({ sample }) => sample.resent)).toHaveLength(1);
    expect(bench.link.counts().linesMissing).toBe(0);
    await bench.link.close();
  });

  it('leaves no timer and no port behind when closed', async () => {
    const bench = setUp(oneBoard());
    await bench.run(2000);
    await bench.link.close();
    expect(bench.clock.waiting()).toBe(0);
    const before = bench.events.length;
    await bench.run(2000);
    expect(bench.events).toHaveLength(before);
    await expect(bench.cable.openPort('bench', { onBytes: () => {}, onLost: () => {} })).resolves.toBeDefined();
  });
});
