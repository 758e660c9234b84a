/**
 * What an input of the emulated board has at its terminals at one moment, before it becomes bytes. Mishaps are done to
 * this; the sample on the wire is made of what is left.
 */
import type { Fault, Sample, SampleValue } from '../codec/frame.ts';
import type { EmulatedThermocouple } from './printed-table.ts';
import { celsiusAt, microvoltsAt } from './voltage.ts';

export type Form = 'voltage' | 'temperature';

export interface Signal {
  readonly channel: number;
  /** The pair of alloys that the wire is and the input is set to. */
  readonly thermocouple: EmulatedThermocouple;
  readonly tipCelsius: number;
  /** Where the probe's own wire ends and the cable to the board begins. */
  readonly headCelsius: number;
  /** The terminals as they are; the board knows them only as its cold junction. */
  readonly terminalsCelsius: number;
  readonly coldJunctionCelsius: number;
  /** Undefined where there is no number: open, or beyond the printed tables. */
  readonly microvolts: number | undefined;
  /** What the converter tells of itself. */
  readonly faults: readonly Fault[];
  /** Of the heater's full power, the share that goes into the plate under the tip now; 0 to 1. */
  readonly heating: number;
}

/** All channels of a board at one moment. */
export interface Signals {
  /** Since the box was first switched on. */
  readonly seconds: number;
  readonly airCelsius: number;
  readonly arc: boolean;
  readonly channels: readonly Signal[];
}

/** The bounds of a number on the wire, PROTOCOL.md, section 4.2. */
const widestMicrovolts = 100_000;

/** As the board sends it. A number beyond what the wire carries is flagged out of range and not sent. */
export function sampleValue(signal: Signal, form: Form): SampleValue {
  const { channel, faults } = signal;
  const reading = form === 'voltage' ? voltageOf(signal) : temperatureOf(signal);
  if (reading !== undefined) return { channel, faults, reading };
  return { channel, faults: faults.length > 0 ? faults : ['out of range'], reading: { form: 'none' } };
}

/** A whole sample of the board's first start. */
export function sampleOf(signals: Signals, sequence: number, form: Form = 'voltage'): Sample {
  return {
    kind: 'sample',
    boot: 1,
    sequence,
    ticks: Math.round(signals.seconds * 1000),
    resent: false,
    inputs: signals.arc ? 1 : 0,
    values: signals.channels.map((signal) => sampleValue(signal, form)),
  };
}

function voltageOf({ microvolts, coldJunctionCelsius }: Signal): SampleValue['reading'] | undefined {
  if (microvolts === undefined || !(Math.abs(microvolts) <= widestMicrovolts)) return undefined;
  return {
    form: 'voltage',
    deciMicrovolts: whole(microvolts * 10),
    coldJunctionCentiCelsius: whole(coldJunctionCelsius * 100),
  };
}

/** An instrument that adds its cold junction and shows the temperature, by the type that it is set to. */
function temperatureOf({ thermocouple, microvolts, coldJunctionCelsius }: Signal): SampleValue['reading'] | undefined {
  const cold = microvoltsAt(thermocouple, coldJunctionCelsius);
  const shown = microvolts === undefined || cold === undefined ? undefined : celsiusAt(thermocouple, microvolts + cold);
  return shown === undefined ? undefined : { form: 'temperature', centiCelsius: whole(shown * 100) };
}

/** Rounded, and never minus zero, which the wire does not know. */
const whole = (value: number): number => Math.round(value) + 0;
