/**
 * A board's sample to a scan: one value for each probe that the joint has on this board, in the order of
 * the joint. Nothing bad becomes "no row", a zero or an old value: it becomes a value with a quality, and
 * the raw number stays beside it.
 *
 * Which thermocouple type counts
 * - Voltage: the type of the probe as the joint states it. The board only measured a voltage, and what it
 *   believes about the wire changes nothing.
 * - Temperature: the instrument has already converted with the type that its hello declares, and without
 *   the cold junction that cannot be undone. Where that is not the probe's type the number is wrong by an
 *   unknown amount (a J wire read as K shows 190 °C at 150 °C), so the value is 'no reading' with its raw
 *   number kept, until joint and instrument agree. server/reading/wiring.ts says so in plain data.
 */
import type { Fault, Hello, Sample, SampleValue } from '../../firmware-protocol/codec/frame.ts';
import type { DeciMicrovolt, Instant, MilliCelsius } from '../measure/quantity.ts';
import type { Probe } from '../weld/probe.ts';
import type { Raw, Scan, ScanValue } from '../weld/scan.ts';
import { type Junction, junctionAt, junctionOfVoltage } from './junction.ts';

export interface Measured {
  /** The newest hello of the board: its identity and what its channels are. */
  readonly hello: Hello;
  readonly sample: Sample;
  /** All probes of one joint; those on other boards are left out of this scan. */
  readonly probes: readonly Probe[];
  readonly measuredAt: Instant;
  readonly arrivedAt: Instant;
}

export const toScan = ({ hello, sample, probes, measuredAt, arrivedAt }: Measured): Scan => ({
  board: hello.board,
  boot: sample.boot,
  sequence: sample.sequence,
  ticks: sample.ticks,
  measuredAt,
  arrivedAt,
  late: sample.resent,
  inputs: sample.inputs,
  values: probes.filter((probe) => probe.board === hello.board).map((probe) => readingOf(probe, hello, sample)),
});

const readingOf = (probe: Probe, hello: Hello, sample: Sample): ScanValue => {
  const value = sample.values.find(({ channel }) => channel === probe.channel);
  if (value === undefined) return { probe: probe.id, quality: 'no reading', raw: { form: 'none' } };
  return { probe: probe.id, ...judged(probe, hello, value), raw: rawOf(value) };
};

const judged = (probe: Probe, hello: Hello, { faults, channel, reading }: SampleValue): Junction => {
  const fault = faultPriority.find((candidate) => faults.includes(candidate));
  // The flag is believed before the number: drivers leave the last good value or zero beside a fault.
  if (fault !== undefined) return { quality: fault };
  switch (reading.form) {
    case 'voltage':
      if (isDeadLine(reading)) return { quality: 'no reading' };
      return junctionOfVoltage(
        probe.thermocouple,
        reading.deciMicrovolts as DeciMicrovolt,
        (reading.coldJunctionCentiCelsius * 10) as MilliCelsius,
      );
    case 'temperature': {
      const declared = hello.channels.find((candidate) => candidate.channel === channel);
      if (declared?.thermocouple !== probe.thermocouple) return { quality: 'no reading' };
      return junctionAt(probe.thermocouple, reading.centiCelsius / 100);
    }
    case 'none':
      return { quality: 'no reading' };
  }
};

/**
 * Where a board flags several faults, the one to look for first. A broken wire makes all other flags
 * meaningless; a short names a place on the wiring; a bad cold junction spoils every number of the board;
 * a value out of range is what any of them may cause, so it comes last.
 */
export const faultPriority: readonly Fault[] = [
  'open',
  'short to ground',
  'short to supply',
  'cold junction out of range',
  'out of range',
];

/**
 * Voltage and cold junction both exactly zero is what a converter part gives whose data line is dead and
 * held low. All bits set comes with every fault flag and needs no rule. A plain 0.00 °C of an instrument
 * that states no cold junction proves nothing and is kept.
 */
const isDeadLine = (reading: { readonly deciMicrovolts: number; readonly coldJunctionCentiCelsius: number }): boolean =>
  reading.deciMicrovolts === 0 && reading.coldJunctionCentiCelsius === 0;

const rawOf = ({ reading }: SampleValue): Raw => {
  switch (reading.form) {
    case 'voltage':
      return {
        form: 'voltage',
        deciMicrovolts: reading.deciMicrovolts as DeciMicrovolt,
        coldJunction: (reading.coldJunctionCentiCelsius * 10) as MilliCelsius,
      };
    case 'temperature':
      return { form: 'temperature', reported: (reading.centiCelsius * 10) as MilliCelsius };
    case 'none':
      return { form: 'none' };
  }
};
