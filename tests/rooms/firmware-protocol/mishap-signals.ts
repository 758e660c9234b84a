/**
 * Signals of three channels that are known, since they are made here, and what the station reads of them: 150 °C at the
 * tip, 25 °C at the terminals, unless said.
 */
import { encode } from '../../../firmware-protocol/codec/encode.ts';
import type { Sample } from '../../../firmware-protocol/codec/frame.ts';
import { withMishaps } from '../../../firmware-protocol/emulator/mishaps/inject.ts';
import type { Mishap } from '../../../firmware-protocol/emulator/mishaps/mishap.ts';
import type { EmulatedThermocouple } from '../../../firmware-protocol/emulator/printed-table.ts';
import { type Signal, type Signals, sampleValue } from '../../../firmware-protocol/emulator/signal.ts';
import { microvoltsAt } from '../../../firmware-protocol/emulator/voltage.ts';
import type { DeciMicrovolt, MilliCelsius } from '../../../server/measure/quantity.ts';
import { junctionOfVoltage } from '../../../server/reading/junction.ts';

const air = 20;

export interface Situation {
  readonly tip?: number;
  readonly head?: number;
  readonly terminals?: number;
  readonly type?: EmulatedThermocouple;
  readonly heating?: number;
}

export function signal(
  channel: number,
  { tip = 150, head = 60, terminals = 25, type = 'K', heating = 0 }: Situation,
): Signal {
  return {
    channel,
    thermocouple: type,
    tipCelsius: tip,
    headCelsius: head,
    terminalsCelsius: terminals,
    coldJunctionCelsius: terminals,
    microvolts: microvoltsAt(type, tip)! - microvoltsAt(type, terminals)!,
    faults: [],
    heating,
  };
}

/** A moment each second, each with three channels alike unless said. */
export function run(
  seconds: number,
  of: (second: number) => Situation = () => ({}),
  arc = (_second: number) => false,
): Signals[] {
  return Array.from({ length: seconds }, (_, second) => ({
    seconds: second,
    airCelsius: air,
    arc: arc(second),
    channels: [1, 2, 3].map((channel) => signal(channel, of(second))),
  }));
}

/** What the station reads of a channel that it takes for a type K. */
export function reads(now: Signals | undefined, channel = 1): number {
  const { reading } = sampleValue(now!.channels.find((each) => each.channel === channel)!, 'voltage');
  if (reading.form !== 'voltage') return Number.NaN;
  const { deciMicrovolts, coldJunctionCentiCelsius } = reading;
  const cold = (coldJunctionCentiCelsius * 10) as MilliCelsius;
  const junction = junctionOfVoltage('K', deciMicrovolts as DeciMicrovolt, cold);
  return junction.quality === 'good' ? junction.temperature / 1000 : Number.NaN;
}

export const one = (kind: Mishap['kind'], rest: Partial<Mishap> = {}): Mishap[] => [
  { kind, channel: 1, fromSeconds: 0, ...rest },
];
export const steady = (situation: Situation, ...mishaps: Mishap[]): number =>
  reads(
    withMishaps(
      run(1, () => situation),
      mishaps,
    )[0],
  );
export const series = (course: readonly Signals[], channel = 1): number[] => course.map((now) => reads(now, channel));
export const lineOf = (sample: Sample): string => encode(sample).replace(/ ~.*/, '');
export const highest = (values: readonly number[]): number => Math.max(...values.map(Math.abs));
