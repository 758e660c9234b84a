/**
 * One input of the emulated board: a junction somewhere, its wire and its cable. It answers with what is at the
 * terminals, not with what the steel is; what may have been done to it is in mishaps/.
 */
import type { Noise } from './noise.ts';
import type { EmulatedPlace } from './part.ts';
import type { EmulatedThermocouple } from './printed-table.ts';
import type { Signal } from './signal.ts';
import { microvoltsAt } from './voltage.ts';

export interface ChannelOptions {
  readonly channel: number;
  readonly thermocouple: EmulatedThermocouple;
  readonly where: EmulatedPlace;
}

export interface Surroundings {
  /** True temperature of the terminals, and whether an arc disturbs the wires. */
  readonly terminalsCelsius: number;
  readonly arc: boolean;
  /** Share of the heater's full power under this junction. */
  readonly heating: number;
}

export interface Channel {
  readonly options: ChannelOptions;
  /** A hand or a cloth of that temperature on the tip; undefined takes it away. */
  touch(celsius: number | undefined): void;
  /** Lets the junction follow the steel at its place; undefined where its place is in the air. */
  follow(seconds: number, steelCelsius: number | undefined): void;
  measure(surroundings: Surroundings): Signal;
  /** What the junction truly has, for the checks. */
  celsius(): number;
}

/** Seconds in which a junction follows the steel it is fixed to, and the air it hangs in. */
const followSeconds = { part: 4, air: 30 };
/**
 * The connection head of a probe stands off the part and is warmed by it: above the air by this share of what the tip
 * is above it, in the end, and as slowly as a small casting. 40 °C at a part of 150 °C in a shop at 20 °C: own choice.
 */
export const head = { share: 0.15, followSeconds: 600 };
/** A tip that is touched lies between the steel and the hand; one in the air takes on the hand. Own choice. */
const touched = { part: 0.25, air: 0.8 };
const quietMicrovolts = 0.8;
const arcMicrovolts = 4;
const coldJunctionNoiseKelvin = 0.01;

export const createChannel = (options: ChannelOptions, noise: Noise, ambientCelsius: number): Channel => {
  let junction = ambientCelsius;
  let headCelsius = ambientCelsius;
  let hand: number | undefined;
  /** No two junctions are fixed alike. */
  const offsetKelvin = (noise.even() - 0.5) * 0.6;

  return {
    options,
    touch: (celsius) => {
      hand = celsius;
    },
    follow: (seconds, steelCelsius) => {
      const place = steelCelsius === undefined ? 'air' : 'part';
      const untouched = steelCelsius === undefined ? ambientCelsius : steelCelsius + offsetKelvin;
      const target = hand === undefined ? untouched : untouched + touched[place] * (hand - untouched);
      const lag = hand === undefined ? followSeconds[place] : followSeconds.part;
      junction += (target - junction) * Math.min(seconds / lag, 1);
      const warmed = ambientCelsius + head.share * (junction - ambientCelsius);
      headCelsius += (warmed - headCelsius) * Math.min(seconds / head.followSeconds, 1);
    },
    celsius: () => junction,
    measure: ({ terminalsCelsius, arc, heating }) => {
      const { channel, thermocouple } = options;
      const hot = microvoltsAt(thermocouple, junction);
      const cold = microvoltsAt(thermocouple, terminalsCelsius);
      const disturbance = noise.bell() * (arc ? arcMicrovolts : quietMicrovolts);
      return {
        channel,
        thermocouple,
        tipCelsius: junction,
        headCelsius,
        terminalsCelsius,
        coldJunctionCelsius: terminalsCelsius + noise.bell() * coldJunctionNoiseKelvin,
        microvolts: hot === undefined || cold === undefined ? undefined : hot - cold + disturbance,
        faults: [],
        heating,
      };
    },
  };
};
