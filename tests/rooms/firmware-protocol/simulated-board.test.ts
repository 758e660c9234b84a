/**
 * The firmware's image in the simulated processor, with each fault that the model of the converters has: what the board
 * sends is what was at the terminals, or says that it is not.
 */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { withCheck } from '../../../firmware-protocol/codec/check.ts';
import { decode } from '../../../firmware-protocol/codec/decode.ts';
import { encode } from '../../../firmware-protocol/codec/encode.ts';
import type { BoardFrame, HostFrame, Sample } from '../../../firmware-protocol/codec/frame.ts';
import type { Signals } from '../../../firmware-protocol/emulator/signal.ts';
import { createFirmwareBoard, type FirmwareBoard } from '../../../firmware-protocol/simulator/firmware-board.ts';
import { readImage } from '../../../firmware-protocol/simulator/image.ts';
import { boardFolder } from '../../support/host-board.ts';

const image = readImage(readFileSync(join(boardFolder, 'image/board.hex'), 'utf8'));
const channels = [1, 2, 3, 4, 5, 6, 7, 8];

interface Seen {
  readonly board: FirmwareBoard;
  readonly signals: Signals[];
  /** Whole frames that the board sends in so many milliseconds; a line that is none fails. */
  frames(milliseconds: number): BoardFrame[];
  samples(milliseconds: number): Sample[];
  tell(frame: HostFrame): void;
}

function seen(mainsHertz: 50 | 60 = 50, boot = 1): Seen {
  const signals: Signals[] = [];
  const board = createFirmwareBoard({
    image,
    identity: 'PB-0042',
    seed: 3,
    mainsHertz,
    boot,
    channels: channels.map((channel) => ({
      channel,
      thermocouple: channel === 3 ? 'J' : 'K',
      where: { at: 'part', depth: 0, distanceMillimetres: 40 + 20 * channel },
    })),
    onSignals: (now) => signals.push(now),
  });
  board.heater({ on: true, setPointCelsius: 300 });
  const frames = (milliseconds: number): BoardFrame[] =>
    board
      .advance(milliseconds)
      .split('\n')
      .filter((line) => line !== '')
      .map((line) => {
        const decoded = decode(line);
        if (!decoded.ok) throw new Error(`${decoded.detail}: ${line}`);
        return decoded.frame as BoardFrame;
      });
  return {
    board,
    signals,
    frames,
    samples: (milliseconds) => frames(milliseconds).flatMap((frame) => (frame.kind === 'sample' ? [frame] : [])),
    tell: (frame) => board.receive(`\n${encode(frame)}\n`),
  };
}

const heard = (sample: Sample): number[] => sample.values.map(({ channel }) => channel);
const on = (sample: Sample, channel: number): Sample['values'][number] =>
  sample.values.find((value) => value.channel === channel)!;

describe('the firmware in a simulated processor', () => {
  it('says who it is and that it is simulated, and measures each second what is at the terminals', () => {
    const { frames, signals } = seen();
    const [hello, ...rest] = frames(15_000);
    expect(hello).toMatchObject({ kind: 'hello', board: 'PB-0042', simulated: true, boot: 1, linesKept: 32 });
    expect(hello).toMatchObject({ channels: channels.map((channel) => ({ channel, form: 'voltage' })) });
    const samples = rest as Sample[];
    expect(samples.map(({ ticks }) => ticks)).toEqual(samples.map((_, index) => 1000 * (index + 1)));
    const apart = samples.flatMap((sample, index) =>
      sample.values.map(({ channel, faults, reading }) => {
        const signal = signals[index]!.channels.find((each) => each.channel === channel)!;
        if (reading.form !== 'voltage') throw new Error('no voltage');
        expect(faults).toEqual([]);
        expect(Math.abs(reading.coldJunctionCentiCelsius / 100 - signal.coldJunctionCelsius)).toBeLessThan(0.02);
        return reading.deciMicrovolts / 10 - signal.microvolts!;
      }),
    );
    const spread = Math.sqrt(apart.reduce((sum, each) => sum + each * each, 0) / apart.length);
    // The converter's own noise, 1.3 microvolts, and half a step of 0.6.
    expect(spread).toBeGreaterThan(0.9);
    expect(spread).toBeLessThan(1.7);
    expect(Math.abs(apart.reduce((sum, each) => sum + each, 0) / apart.length)).toBeLessThan(0.6);
  });

  it('leaves out a converter that is missing, dead or never done, and has it back when it is right again', () => {
    const { board, samples } = seen();
    samples(1500);
    for (const fault of ['missing', 'dead', 'stuck'] as const) {
      board.converter(5, fault);
      expect(samples(2000).map(heard)).toEqual([channels, channels].map((all) => all.filter((each) => each !== 5)));
      board.converter(5, 'none');
      expect(samples(2000).map(heard).at(-1)).toEqual(channels);
    }
  });

  it('takes no temperature of a converter that lost its settings for a voltage, and sets it again', () => {
    const { board, samples } = seen();
    samples(1500);
    board.converter(2, 'dip');
    const [first, second] = samples(2000);
    expect(heard(first!)).toEqual(channels.filter((each) => each !== 2));
    expect(heard(second!)).toEqual(channels);
  });

  it('knows by their numbers that two channels reach the same converter', () => {
    const { board, samples } = seen();
    samples(1500);
    board.stickAddressLine(1);
    const stuck = samples(3000);
    // Channels 3, 4, 7 and 8 then reach converters 1, 2, 5 and 6, which from then on bear a wrong number half of the time.
    expect(stuck.length).toBe(3);
    for (const sample of stuck) expect(heard(sample).filter((channel) => [3, 4, 7, 8].includes(channel))).toEqual([]);
    board.stickAddressLine(undefined);
    expect(heard(samples(3000).at(-1)!)).toEqual(channels);
  });

  it('takes no old number for a new one where the line that tells a result hangs', () => {
    const { board, samples } = seen();
    samples(1500);
    board.stickReady(true);
    for (const sample of samples(3000))
      expect(sample.values).toEqual([{ channel: 1, faults: ['out of range'], reading: { form: 'none' } }]);
    board.stickReady(false);
    expect(heard(samples(2000).at(-1)!)).toEqual(channels);
  });

  it('measures on and does not start again though the host never stops asking', () => {
    const { board, frames } = seen();
    frames(1500);
    const told: BoardFrame[] = [];
    for (let tenth = 0; tenth < 50; tenth += 1) {
      board.receive(`\n${encode({ kind: 'ask hello', command: tenth })}\n`.repeat(6));
      told.push(...frames(100));
    }
    const sequences = told.flatMap((frame) => (frame.kind === 'sample' ? [frame.sequence] : []));
    expect(sequences.length).toBeGreaterThanOrEqual(4);
    expect(sequences).toEqual(sequences.map((_, index) => index + 1));
    expect(told.filter((frame) => frame.kind === 'hello' && frame.boot !== 1)).toEqual([]);
  });

  it('sends something though every converter is silent', () => {
    const { board, samples } = seen();
    samples(1500);
    for (const channel of channels) board.converter(channel, 'missing');
    expect(samples(1000)[0]!.values).toEqual([{ channel: 1, faults: ['out of range'], reading: { form: 'none' } }]);
  });

  it('flags an open wire, an input beyond the supply and a cold junction out of range, each by its letter', () => {
    const { board, samples } = seen();
    samples(1500);
    board.inject({ kind: 'channel', channel: 1, mishap: 'open' });
    board.inject({ kind: 'channel', channel: 2, mishap: 'short-to-supply' });
    board.inject({ kind: 'channel', channel: 4, mishap: 'out-of-range' });
    const last = samples(2000).at(-1)!;
    expect(on(last, 1).faults).toContain('open');
    expect(on(last, 2)).toMatchObject({ faults: ['out of range'], reading: { form: 'none' } });
    expect(on(last, 4).reading).toEqual({ form: 'none' });
    expect(heard(last)).toEqual(channels);
  });

  it('keeps time with either filter, refuses a period that it cannot keep, and takes one that it can', () => {
    const { frames, samples, tell } = seen(60);
    samples(2000);
    tell({ kind: 'period', command: 1, periodMilliseconds: 200 });
    tell({ kind: 'period', command: 2, periodMilliseconds: 400 });
    const replies = frames(900).filter(({ kind }) => kind === 'reply');
    expect(replies).toEqual([
      { kind: 'reply', command: 1, outcome: 'refused' },
      { kind: 'reply', command: 2, outcome: 'done' },
    ]);
    const ticks = samples(2000).map((sample) => sample.ticks);
    expect(ticks.slice(1).map((each, index) => each - ticks[index]!)).toEqual(ticks.slice(1).map(() => 400));
  });

  it('sends again what it keeps while it measures on, and drives its outputs', () => {
    const { board, frames, samples, tell } = seen();
    const measured = samples(40_500);
    tell({ kind: 'send again', command: 9, fromSequence: 0 });
    tell({ kind: 'lamp', command: 10, state: 'on' });
    tell({ kind: 'horn', command: 11, state: 'on' });
    tell({ kind: 'permission', command: 12, state: 'given' });
    const told = frames(3000);
    const again = told.flatMap((frame) => (frame.kind === 'sample' && frame.resent ? [frame] : []));
    expect(again.length).toBeGreaterThanOrEqual(30);
    const numbers = new Set(again.map(({ sequence }) => sequence));
    expect(again.map((sample) => ({ ...sample, resent: false }))).toEqual(
      [...measured, ...told.filter((frame) => frame.kind === 'sample' && !frame.resent)].filter(
        (frame) => frame.kind === 'sample' && numbers.has(frame.sequence),
      ),
    );
    expect(told).toContainEqual({ kind: 'reply', command: 9, outcome: 'not kept' });
    const fresh = told.flatMap((frame) => (frame.kind === 'sample' && !frame.resent ? [frame.ticks] : []));
    expect(fresh).toEqual([41_000, 42_000, 43_000].slice(0, fresh.length));
    expect(board.outputs()).toEqual({ lamp: 'on', horn: 'on', permission: 'given' });
    frames(4000);
    expect(board.outputs().permission).toBe('withheld');
    expect(board.ramLeft()).toBeGreaterThan(96);
  });

  it('goes on counting from the starts that its memory holds', () => {
    const { board, frames } = seen(50, 4_000_000_000);
    expect(frames(500)[0]).toMatchObject({ kind: 'hello', boot: 4_000_000_000 });
    board.reboot();
    expect(frames(500)[0]).toMatchObject({ kind: 'hello', boot: 4_000_000_001 });
  });

  it('counts its starts, and is deaf to noise between commands', () => {
    const { board, frames, tell } = seen();
    frames(2500);
    board.reboot();
    expect(frames(500)[0]).toMatchObject({ kind: 'hello', boot: 2, ticks: 0 });
    board.receive(`\u0000\u00ff~~~ ${'x'.repeat(700)}\n${withCheck('unheard-of command=7')}\n`);
    tell({ kind: 'heartbeat', command: 8 });
    expect(frames(400)).toEqual([
      { kind: 'reply', command: 7, outcome: 'refused' },
      { kind: 'reply', command: 8, outcome: 'done' },
    ]);
  });
});
