/** Lamp, horn and permission through the whole way: board, station, record and back to the board. Times are those of PROTOCOL.md, section 5. */
import { describe, expect, test } from 'vitest';
import type { HostFrame } from '../../../firmware-protocol/codec/frame.ts';
import { openBench } from './bench.ts';

const who = { name: 'Ada' };
const keepsAlive = (frame: HostFrame): boolean =>
  frame.kind === 'heartbeat' || (frame.kind === 'permission' && frame.state === 'given');

async function ready(options: Parameters<typeof openBench>[0] = {}) {
  const bench = await openBench(options);
  await bench.enter();
  await bench.seconds(5);
  expect(bench.station.pipeline.run('easy')!.assessment.ready).toBe(true);
  return bench;
}

test('a ready joint has a steady lamp and permission, and loses both when it is closed', async () => {
  const { board, station, seconds } = await ready();
  expect(board.outputs()).toEqual({ lamp: 'on', horn: 'off', permission: 'given' });
  const closed = station.pipeline.act('easy', { who, act: { kind: 'close' } });
  await seconds(2);
  await closed;
  expect(board.outputs()).toEqual({ lamp: 'off', horn: 'off', permission: 'withheld' });
});

test('without being asked the station sends no output to any board', async () => {
  const { heard, station } = await ready({ signals: false });
  expect(heard().filter(({ kind }) => kind !== 'ask hello')).toEqual([]);
  expect(station.pipeline.run('easy')).toBeDefined();
});

describe('the heartbeat', () => {
  test('follows commits: about one a second, and permission lasts with it', async () => {
    const { heard, seconds, board } = await ready();
    heard();
    await seconds(60);
    const beats = heard().filter(({ kind }) => kind === 'heartbeat').length;
    expect(beats).toBeGreaterThanOrEqual(50);
    expect(beats).toBeLessThanOrEqual(61);
    expect(board.outputs().permission).toBe('given');
  });

  test('stops in the moment in which nothing is recorded; permission is withheld at once and the lamp shows it', async () => {
    const { heard, seconds, board, disk } = await ready();
    disk.break();
    await seconds(2);
    expect(board.outputs()).toMatchObject({ lamp: 'fast', permission: 'withheld' });
    heard();
    await seconds(20);
    expect(heard().filter(keepsAlive)).toEqual([]);
    disk.mend();
    await seconds(4);
    expect(board.outputs()).toMatchObject({ lamp: 'on', permission: 'given' });
  });

  test('ends with a station that hangs: the board withholds and shows fault by itself within its five seconds', async () => {
    const { boardAlone, board } = await ready();
    boardAlone(3_000);
    expect(board.outputs().permission).toBe('given');
    boardAlone(2_100);
    expect(board.outputs()).toMatchObject({ lamp: 'fast', permission: 'withheld' });
  });

  test('that comes again after such a stop sets everything as it stands', async () => {
    const { boardAlone, board, seconds } = await ready();
    boardAlone(8_000);
    await seconds(20);
    expect(board.outputs()).toEqual({ lamp: 'on', horn: 'off', permission: 'given' });
  });
});

test('a board that starts again is told everything again', async () => {
  const { board, seconds } = await ready();
  board.reboot();
  expect(board.outputs()).toEqual({ lamp: 'off', horn: 'off', permission: 'withheld' });
  await seconds(6);
  expect(board.outputs()).toEqual({ lamp: 'on', horn: 'off', permission: 'given' });
});

test('a broken wire at a required place takes permission back, without a horn: it is nothing for this very minute', async () => {
  const { board, seconds } = await ready();
  board.inject({ kind: 'channel', channel: 1, mishap: 'open' });
  await seconds(20);
  expect(board.outputs()).toEqual({ lamp: 'slow', horn: 'off', permission: 'withheld' });
});

test('steel hotter than allowed sounds the horn until somebody acknowledges it', async () => {
  // The plate lies in a shop of 20 °C.
  const { board, station, seconds, enter } = await openBench({ highestCelsius: 15 });
  await enter();
  await seconds(10);
  expect(board.outputs()).toEqual({ lamp: 'fast', horn: 'on', permission: 'withheld' });
  for (const { key } of station.pipeline.run('easy')!.assessment.alarms)
    void station.pipeline.act('easy', { who, act: { kind: 'acknowledge', alarm: key } });
  await seconds(2);
  expect(board.outputs()).toEqual({ lamp: 'slow', horn: 'off', permission: 'withheld' });
});

test('a board that measures too seldom for its heartbeat is never given permission, and the reason stands', async () => {
  const { board, seconds, heard, signals } = await ready({ period: 2_500 });
  await seconds(20);
  expect(board.outputs().permission).toBe('withheld');
  expect(signals()).toMatchObject([{ lamp: 'on', permission: 'withheld', why: 'measures too seldom' }]);
  expect(heard().filter(({ kind }) => kind === 'permission')).not.toContainEqual(
    expect.objectContaining({ state: 'given' }),
  );
});

test('a board that does not reply is named as silent', async () => {
  const bench = await ready();
  expect(outcomes(bench)).toEqual({ lamp: 'done', horn: 'done', permission: 'done', heartbeat: 'done' });
  bench.setDeaf(true);
  await bench.seconds(60);
  expect(outcomes(bench)).toMatchObject({ heartbeat: 'silent', permission: 'silent' });
});

const outcomes = ({ signals }: Awaited<ReturnType<typeof openBench>>): Record<string, string> =>
  Object.fromEntries(signals()[0]!.outputs.map(({ output, outcome }) => [output, outcome]));
