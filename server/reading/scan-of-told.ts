/**
 * What a connected instrument told, to a scan. As with a board nothing bad becomes a missing row: a fault, or an answer that
 * did not come, is a value with a quality, and what the instrument said stays beside it. A temperature of its own is taken
 * only where the instrument is set to the probe's type, since it cannot be worked out again.
 */
import type { Hello } from '../../firmware-protocol/codec/frame.ts';
import type { Instant } from '../measure/quantity.ts';
import type { Probe } from '../weld/probe.ts';
import type { Raw, Scan, ScanValue } from '../weld/scan.ts';
import type { Told, ToldValue } from '../weld/told.ts';
import { type Junction, junctionAt, junctionOfVoltage } from './junction.ts';

export interface ToldMeasured {
  readonly hello: Hello;
  readonly told: Told;
  readonly probes: readonly Probe[];
  readonly measuredAt: Instant;
  readonly arrivedAt: Instant;
}

/** Undefined where it spoke of no probe of this joint. */
export const scanOfTold = ({ hello, told, probes, measuredAt, arrivedAt }: ToldMeasured): Scan | undefined => {
  const values = probes.flatMap((probe): ScanValue[] => {
    if (probe.board !== hello.board) return [];
    const value = told.values.find(({ channel }) => channel === probe.channel);
    if (value !== undefined) return [{ probe: probe.id, ...junctionOf(probe, hello, value), raw: rawOf(value) }];
    // The instrument has no such channel at all: that is told with each of its readings.
    const isFitted = hello.channels.some(({ channel }) => channel === probe.channel);
    return isFitted ? [] : [{ probe: probe.id, quality: 'no reading', raw: { form: 'none' } }];
  });
  if (values.length === 0) return undefined;
  const { boot, sequence, ticks } = told;
  return { board: hello.board, boot, sequence, ticks, measuredAt, arrivedAt, late: false, inputs: 0, values };
};

const junctionOf = ({ thermocouple }: Probe, hello: Hello, value: ToldValue): Junction => {
  if ('fault' in value) return { quality: value.fault };
  if ('deciMicrovolts' in value) return junctionOfVoltage(thermocouple, value.deciMicrovolts, value.coldJunction);
  const set = hello.channels.find(({ channel }) => channel === value.channel)?.thermocouple;
  return set === thermocouple ? junctionAt(thermocouple, value.reported / 1000) : { quality: 'no reading' };
};

const rawOf = (value: ToldValue): Raw => {
  const { said } = value;
  if ('fault' in value) return { form: 'none', said };
  return 'reported' in value
    ? { form: 'temperature', reported: value.reported, said }
    : { form: 'voltage', deciMicrovolts: value.deciMicrovolts, coldJunction: value.coldJunction, said };
};
