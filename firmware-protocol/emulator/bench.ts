/**
 * The steel on the emulated bench and the junctions on it, with what happens to them: what any board, emulated or run
 * in a simulator, has at its terminals. It knows no board, no sample and no byte.
 */
import { type Channel, type ChannelOptions, createChannel } from './channel.ts';
import type { Heater } from './heater.ts';
import { createInjector } from './mishaps/inject.ts';
import type { Mishap, MishapKind } from './mishaps/mishap.ts';
import type { Noise } from './noise.ts';
import { createPart, type EmulatedPlace, type Part, type PartOptions, usualPart } from './part.ts';
import type { Signals } from './signal.ts';

export interface BenchOptions {
  readonly seed: number;
  readonly channels: readonly ChannelOptions[];
  /** The plates of the joint, heated and welded together; a place names one by its number. One usual plate unless said. */
  readonly parts?: readonly Partial<PartOptions>[];
  /** What happens to its probes, and when. */
  readonly mishaps?: readonly Mishap[];
  /** Told of each measuring what is at the terminals, before any mishap: a run to do mishaps to. */
  readonly onSignals?: (signals: Signals) => void;
}

/** What a person, or fate, does to a probe. */
export type ProbeInjected =
  /** From now on, in its usual severity, until 'none' puts the channel right again. */
  | { readonly kind: 'channel'; readonly channel: number; readonly mishap: MishapKind | 'none' }
  /** A hand or a wet cloth on the tip of a channel, until it is taken away. */
  | { readonly kind: 'touch'; readonly channel: number; readonly celsius: number | undefined };

export interface Bench {
  /** One millisecond passes. */
  moment(): void;
  /** What is at the terminals now; each call is one measuring of all channels. */
  measure(): Signals;
  heater(heater: Heater): void;
  arc(on: boolean): void;
  arcBurns(): boolean;
  inject(injected: ProbeInjected): void;
  /** True temperature of a channel's junction, for checks: where a mishap took it away, of the place it was taken to. */
  celsius(channel: number): number;
}

/** Steel and junctions move on in steps of this length, whatever the period. */
const stepMilliseconds = 100;

export function createBench(options: BenchOptions, noise: Noise): Bench {
  const partOptions = (options.parts ?? [{}]).map((each) => ({ ...usualPart, ...each }));
  const parts = partOptions.map(createPart);
  const { ambientCelsius } = partOptions[0] ?? usualPart;
  const channels = options.channels.map((channel) => createChannel(channel, noise, ambientCelsius));
  const doMishaps = createInjector(options.seed);
  let mishaps = options.mishaps ?? [];
  /** What the channels had, mishaps included, at the newest measuring. */
  let measured: Signals | undefined;
  let passed = 0;
  let arc = false;

  const steelAt = (where: EmulatedPlace): number | undefined =>
    where.at === 'air' ? undefined : partOf(parts, where.part ?? 0).celsiusAt(where.depth, where.distanceMillimetres);
  const heatingAt = (where: EmulatedPlace): number =>
    where.at === 'air' ? 0 : partOf(parts, where.part ?? 0).heatingShare();

  return {
    moment: () => {
      passed += 1;
      if (passed % stepMilliseconds !== 0) return;
      for (const part of parts) part.advance(stepMilliseconds / 1000);
      for (const channel of channels) channel.follow(stepMilliseconds / 1000, steelAt(channel.options.where));
    },
    measure: () => {
      const terminalsCelsius = terminals(ambientCelsius, passed);
      const signals: Signals = {
        seconds: passed / 1000,
        airCelsius: ambientCelsius,
        arc,
        channels: channels.map((channel) =>
          channel.measure({ terminalsCelsius, arc, heating: heatingAt(channel.options.where) }),
        ),
      };
      options.onSignals?.(signals);
      measured = doMishaps(signals, mishaps);
      return measured;
    },
    heater: (heater) => {
      for (const part of parts) part.heater(heater);
    },
    arc: (on) => {
      arc = on;
      for (const part of parts) part.arc(on);
    },
    arcBurns: () => arc,
    inject: (injected) => {
      const found = channelOf(channels, injected.channel);
      if (injected.kind === 'touch') return found.touch(injected.celsius);
      const { channel } = found.options;
      mishaps = mishaps.filter((each) => each.channel !== channel);
      if (injected.mishap === 'none') return;
      mishaps = [...mishaps, { kind: injected.mishap, channel, fromSeconds: passed / 1000 }];
    },
    celsius: (channel) => {
      const junction = channelOf(channels, channel).celsius();
      const isMoved = mishaps.some((each) => each.channel === channel && each.fromSeconds <= passed / 1000);
      return (
        (isMoved ? measured?.channels.find((each) => each.channel === channel)?.tipCelsius : undefined) ?? junction
      );
    },
  };
}

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
