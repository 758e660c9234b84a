/**
 * A board in software. It speaks bytes and hears bytes, as PROTOCOL.md has it, and keeps no time but the
 * one handed to advance. The same seed and the same calls give the same bytes, however time is cut.
 */
import { encode } from '../codec/encode.ts';
import type { Hello, Sample } from '../codec/frame.ts';
import { type Channel, type ChannelOptions, createChannel } from './channel.ts';
import type { Heater } from './heater.ts';
import { createListener, type Outputs, outputsAtStart } from './listener.ts';
import { createInjector } from './mishaps/inject.ts';
import type { Mishap, MishapKind } from './mishaps/mishap.ts';
import { createNoise } from './noise.ts';
import { createPart, type EmulatedPlace, type Part, type PartOptions, usualPart } from './part.ts';
import { type Form, type Signals, sampleValue } from './signal.ts';

export interface BoardOptions {
  readonly identity: string;
  readonly seed: number;
  readonly channels: readonly ChannelOptions[];
  /** The plates of the joint, heated and welded together; a place names one by its number. One usual plate unless said. */
  readonly parts?: readonly Partial<PartOptions>[];
  readonly periodMilliseconds?: number;
  readonly form?: Form;
  /** Number of its first start. */
  readonly boot?: number;
  /** Samples kept for sending again. */
  readonly linesKept?: number;
  /** What happens to its probes, and when. */
  readonly mishaps?: readonly Mishap[];
  /** Told of each sample what is at the terminals, before any mishap: a run to do mishaps to. */
  readonly onSignals?: (signals: Signals) => void;
}

export type Injected =
  /** From now on, in its usual severity, until 'none' puts the channel right again. */
  | { readonly kind: 'channel'; readonly channel: number; readonly mishap: MishapKind | 'none' }
  /** A hand or a wet cloth on the tip of a channel, until it is taken away. */
  | { readonly kind: 'touch'; readonly channel: number; readonly celsius: number | undefined }
  /** The cable: nothing passes either way while it is out; the board runs on. */
  | { readonly kind: 'unplugged' }
  | { readonly kind: 'plugged in' }
  /** Noise on the line before whatever comes next. */
  | { readonly kind: 'garbage'; readonly bytes: number }
  /** The next line breaks off half way, without its LF. */
  | { readonly kind: 'cut line' };

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
/** Steel and junctions move on in steps of this length, whatever the period. */
const stepMilliseconds = 100;
const inputs = 4;

export const createBoard = (options: BoardOptions): Board => {
  const form = options.form ?? 'voltage';
  const ownPeriod = options.periodMilliseconds ?? 1000;
  const linesKept = options.linesKept ?? 64;
  const noise = createNoise(options.seed);
  const partOptions = (options.parts ?? [{}]).map((each) => ({ ...usualPart, ...each }));
  const parts = partOptions.map(createPart);
  const { ambientCelsius } = partOptions[0] ?? usualPart;
  const channels = options.channels.map((channel) => createChannel(channel, noise, ambientCelsius));
  const steelAt = (where: EmulatedPlace): number | undefined =>
    where.at === 'air' ? undefined : partOf(parts, where.part ?? 0).celsiusAt(where.depth, where.distanceMillimetres);
  const heatingAt = (where: EmulatedPlace): number =>
    where.at === 'air' ? 0 : partOf(parts, where.part ?? 0).heatingShare();
  const doMishaps = createInjector(options.seed);
  let mishaps = options.mishaps ?? [];
  /** What the channels had, mishaps included, at the newest sample. */
  let measured: Signals | undefined;

  let boot = options.boot ?? 1;
  let ticks = 0;
  let sequence = 0;
  let period = ownPeriod;
  let nextSample = firstSample(period);
  let kept: Sample[] = [];
  let arc = false;
  let plugged = true;
  let cut = false;
  let sinceBox = 0;
  let out = '\n';

  const send = (bytes: string): void => {
    if (!plugged) return;
    if (cut && bytes.length > 1) {
      cut = false;
      out += bytes.slice(0, bytes.length >> 1);
    } else out += bytes;
  };

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
    const terminalsCelsius = terminals(ambientCelsius, sinceBox);
    const signals: Signals = {
      seconds: sinceBox / 1000,
      airCelsius: ambientCelsius,
      arc,
      channels: channels.map((channel) =>
        channel.measure({ terminalsCelsius, arc, heating: heatingAt(channel.options.where) }),
      ),
    };
    options.onSignals?.(signals);
    measured = doMishaps(signals, mishaps);
    const taken: Sample = {
      kind: 'sample',
      boot,
      sequence,
      ticks,
      resent: false,
      inputs: arc ? 1 : 0,
      values: measured.channels.map((signal) => sampleValue(signal, form)),
    };
    sequence += 1;
    kept.push(taken);
    if (kept.length > linesKept) kept.shift();
    send(`${encode(taken)}\n`);
  };

  const listener = createListener({
    say: (frame) => send(`${encode(frame)}\n`),
    hello,
    kept: () => kept,
    setPeriod: (milliseconds) => {
      period = milliseconds;
      nextSample = ticks + milliseconds;
    },
  });

  const moment = (): void => {
    ticks += 1;
    sinceBox += 1;
    if (sinceBox % stepMilliseconds === 0) {
      for (const part of parts) part.advance(stepMilliseconds / 1000);
      for (const channel of channels) channel.follow(stepMilliseconds / 1000, steelAt(channel.options.where));
    }
    if (ticks === startMilliseconds) send(`${encode(hello())}\n`);
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
    send('\n');
  };

  return {
    advance: (milliseconds) => {
      for (let left = milliseconds; left > 0; left -= 1) moment();
      const bytes = out;
      out = '';
      return bytes;
    },
    receive: (bytes) => {
      if (plugged && ticks >= startMilliseconds) listener.hear(bytes);
    },
    heater: (heater) => {
      for (const part of parts) part.heater(heater);
    },
    arc: (on) => {
      arc = on;
      for (const part of parts) part.arc(on);
    },
    inject: (injected) => {
      switch (injected.kind) {
        case 'channel': {
          const { channel } = channelOf(channels, injected.channel).options;
          mishaps = mishaps.filter((each) => each.channel !== channel);
          if (injected.mishap === 'none') return;
          mishaps = [...mishaps, { kind: injected.mishap, channel, fromSeconds: sinceBox / 1000 }];
          return;
        }
        case 'touch':
          return channelOf(channels, injected.channel).touch(injected.celsius);
        case 'unplugged':
          plugged = false;
          out = '';
          return;
        case 'plugged in':
          plugged = true;
          return;
        case 'garbage':
          return send(Array.from({ length: injected.bytes }, () => String.fromCharCode(noise.below(256))).join(''));
        case 'cut line':
          cut = true;
          return;
      }
    },
    reboot: () => {
      boot += 1;
      start();
    },
    outputs: () => (ticks < startMilliseconds ? outputsAtStart : listener.outputs()),
    celsius: (channel) => {
      const junction = channelOf(channels, channel).celsius();
      const isMoved = mishaps.some((each) => each.channel === channel && each.fromSeconds <= sinceBox / 1000);
      return (
        (isMoved ? measured?.channels.find((each) => each.channel === channel)?.tipCelsius : undefined) ?? junction
      );
    },
  };
};

const firstSample = (period: number): number => (Math.floor(startMilliseconds / period) + 1) * period;

/** The box warms by 3 K in its first half hour and then breathes with the room. */
const terminals = (ambientCelsius: number, milliseconds: number): number => {
  const seconds = milliseconds / 1000;
  return ambientCelsius + 2 + 3 * (1 - Math.exp(-seconds / 900)) + 0.4 * Math.sin(seconds / 270);
};

const partOf = (parts: readonly Part[], wanted: number): Part => {
  const found = parts[wanted];
  if (found === undefined) throw new RangeError(`this board has no part ${wanted}`);
  return found;
};

const channelOf = (channels: readonly Channel[], wanted: number): Channel => {
  const found = channels.find(({ options }) => options.channel === wanted);
  if (found === undefined) throw new RangeError(`this board has no channel ${wanted}`);
  return found;
};
