/**
 * One input of the emulated board: a junction somewhere, its wire, and whatever has been done to it. It
 * answers with what the converter of a real board would see, not with what the steel is.
 */
import type { Fault, SampleValue } from '../codec/frame.ts';
import type { Noise } from './noise.ts';
import type { EmulatedPlace } from './part.ts';
import { type EmulatedThermocouple, microvoltsAt } from './voltage.ts';

export interface ChannelOptions {
  readonly channel: number;
  readonly thermocouple: EmulatedThermocouple;
  readonly where: EmulatedPlace;
}

/** What can happen to one channel. detached: the junction comes off the part and hangs in the air. */
export type Mishap =
  | 'none'
  | 'open'
  | 'reversed'
  | 'stuck'
  | 'detached'
  | 'short to ground'
  | 'short to supply'
  | 'cold junction out of range'
  | 'out of range';

export interface Surroundings {
  /** True temperature of the terminals, and whether an arc disturbs the wires. */
  readonly terminalsCelsius: number;
  readonly arc: boolean;
}

export interface Channel {
  readonly options: ChannelOptions;
  mishap(mishap: Mishap): void;
  /** Lets the junction follow the steel at its place; undefined where its place is in the air. */
  follow(seconds: number, steelCelsius: number | undefined): void;
  measure(surroundings: Surroundings): SampleValue;
  /** What the junction truly has, for the checks. */
  celsius(): number;
}

/** Seconds in which a junction follows the steel it is fixed to, and the air it hangs in. */
const followSeconds = { part: 4, air: 30 };
const quietMicrovolts = 0.8;
const arcMicrovolts = 4;

export const createChannel = (
  options: ChannelOptions,
  form: 'voltage' | 'temperature',
  noise: Noise,
  ambientCelsius: number,
): Channel => {
  let mishap: Mishap = 'none';
  let junction = ambientCelsius;
  let last: SampleValue | undefined;
  /** No two junctions are fixed alike. */
  const offsetKelvin = (noise.even() - 0.5) * 0.6;

  const voltage = ({ terminalsCelsius, arc }: Surroundings): SampleValue['reading'] | undefined => {
    const hot = microvoltsAt(options.thermocouple, junction);
    const cold = microvoltsAt(options.thermocouple, terminalsCelsius);
    if (hot === undefined || cold === undefined) return undefined;
    const across = mishap === 'reversed' ? cold - hot : hot - cold;
    const disturbed = across + noise.bell() * (arc ? arcMicrovolts : quietMicrovolts);
    return {
      form: 'voltage',
      deciMicrovolts: whole(disturbed * 10),
      coldJunctionCentiCelsius: whole(terminalsCelsius * 100 + noise.bell()),
    };
  };

  const temperature = ({ terminalsCelsius, arc }: Surroundings): SampleValue['reading'] => {
    const shown = mishap === 'reversed' ? 2 * terminalsCelsius - junction : junction;
    return { form: 'temperature', centiCelsius: whole(shown * 100 + noise.bell() * (arc ? 10 : 2)) };
  };

  return {
    options,
    mishap: (next) => {
      mishap = next;
    },
    follow: (seconds, steelCelsius) => {
      const inAir = steelCelsius === undefined || mishap === 'detached';
      const target = inAir ? ambientCelsius : steelCelsius + offsetKelvin;
      const lag = inAir ? followSeconds.air : followSeconds.part;
      junction += (target - junction) * Math.min(seconds / lag, 1);
    },
    celsius: () => junction,
    measure: (surroundings) => {
      if (mishap === 'stuck' && last !== undefined) return last;
      const reading = form === 'voltage' ? voltage(surroundings) : temperature(surroundings);
      const flagged = flagOf(mishap) ?? (reading === undefined ? 'out of range' : undefined);
      last =
        flagged !== undefined || reading === undefined
          ? { channel: options.channel, faults: [flagged ?? 'out of range'], reading: { form: 'none' } }
          : { channel: options.channel, faults: [], reading };
      return last;
    },
  };
};

/** A converter flags some mishaps; the others it cannot see, and sends a wrong number in good faith. */
const flagOf = (mishap: Mishap): Fault | undefined => {
  switch (mishap) {
    case 'none':
    case 'reversed':
    case 'stuck':
    case 'detached':
      return undefined;
    default:
      return mishap;
  }
};

/** Rounded, and never minus zero, which the wire does not know. */
const whole = (value: number): number => Math.round(value) + 0;
