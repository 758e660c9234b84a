/**
 * A board in software. It speaks bytes and hears bytes, as PROTOCOL.md has it, and keeps no time but the
 * one handed to advance. The same seed and the same calls give the same bytes, however time is cut.
 */
import { encode } from '../codec/encode.ts';
import type { Hello, Sample } from '../codec/frame.ts';
import { type BenchOptions, createBench, type ProbeInjected } from './bench.ts';
import { type CableInjected, createCable } from './cable.ts';
import type { Heater } from './heater.ts';
import { createListener, type Outputs, outputsAtStart } from './listener.ts';
import { createNoise } from './noise.ts';
import { type Form, sampleValue } from './signal.ts';

export interface BoardOptions extends BenchOptions {
  readonly identity: string;
  readonly periodMilliseconds?: number;
  readonly form?: Form;
  /** Number of its first start. */
  readonly boot?: number;
  /** Samples kept for sending again. */
  readonly linesKept?: number;
}

export type Injected = ProbeInjected | CableInjected;

export interface Board {
  /** Bytes, each a character of code 0 to 255, that the board sends while so many of its milliseconds pass. */
  advance(milliseconds: number): string;
  receive(bytes: string): void;
  heater(heater: Heater): void;
  arc(on: boolean): void;
  inject(injected: Injected): void;
  reboot(): void;
  outputs(): Outputs;
  /** True temperature of a channel's junction, for checks: where a mishap took it away, of the place it was taken to. */
  celsius(channel: number): number;
}

/** From reset to the hello, milliseconds. */
const startMilliseconds = 300;
const inputs = 4;

export const createBoard = (options: BoardOptions): Board => {
  const form = options.form ?? 'voltage';
  const ownPeriod = options.periodMilliseconds ?? 1000;
  const linesKept = options.linesKept ?? 64;
  const noise = createNoise(options.seed);
  const bench = createBench(options, noise);
  const cable = createCable(noise);
  cable.send('\n');

  let boot = options.boot ?? 1;
  let ticks = 0;
  let sequence = 0;
  let period = ownPeriod;
  let nextSample = firstSample(period);
  let kept: Sample[] = [];

  const hello = (): Hello => ({
    kind: 'hello',
    revision: 1,
    board: options.identity,
    firmware: 'emulated-1',
    simulated: true,
    boot,
    ticks,
    periodMilliseconds: period,
    channels: options.channels.map(({ channel, thermocouple }) => ({ channel, form, thermocouple })),
    inputs,
    linesKept,
  });

  const sample = (): void => {
    const measured = bench.measure();
    const taken: Sample = {
      kind: 'sample',
      boot,
      sequence,
      ticks,
      resent: false,
      inputs: bench.arcBurns() ? 1 : 0,
      values: measured.channels.map((signal) => sampleValue(signal, form)),
    };
    sequence += 1;
    kept.push(taken);
    if (kept.length > linesKept) kept.shift();
    cable.send(`${encode(taken)}\n`);
  };

  const listener = createListener({
    say: (frame) => cable.send(`${encode(frame)}\n`),
    hello,
    kept: () => kept,
    setPeriod: (milliseconds) => {
      period = milliseconds;
      nextSample = ticks + milliseconds;
    },
  });

  const moment = (): void => {
    ticks += 1;
    bench.moment();
    if (ticks === startMilliseconds) cable.send(`${encode(hello())}\n`);
    listener.advanceTo(ticks);
    if (ticks === nextSample) {
      nextSample += period;
      sample();
    }
  };

  const start = (): void => {
    ticks = 0;
    sequence = 0;
    period = ownPeriod;
    nextSample = firstSample(period);
    kept = [];
    listener.restart();
    cable.send('\n');
  };

  return {
    advance: (milliseconds) => {
      for (let left = milliseconds; left > 0; left -= 1) moment();
      return cable.take();
    },
    receive: (bytes) => {
      if (cable.passes() && ticks >= startMilliseconds) listener.hear(bytes);
    },
    heater: bench.heater,
    arc: bench.arc,
    inject: (injected) =>
      injected.kind === 'channel' || injected.kind === 'touch' ? bench.inject(injected) : cable.inject(injected),
    reboot: () => {
      boot += 1;
      start();
    },
    outputs: () => (ticks < startMilliseconds ? outputsAtStart : listener.outputs()),
    celsius: bench.celsius,
  };
};

const firstSample = (period: number): number => (Math.floor(startMilliseconds / period) + 1) * period;
