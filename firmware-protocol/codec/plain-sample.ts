/**
 * Nearly every line is a sample of channels without a fault. Such a line is read in one walk over its bytes, several times as fast
 * as by its fields. Whatever else a line may be is left to decode.ts, which says what is wrong with it.
 */
import { bounds } from './bounds.ts';
import type { Fault, Sample, SampleValue } from './frame.ts';
import { bytesOf, Walk } from './walk.ts';

/** The sample as it is by its fields, or undefined where the line is anything but a whole and plain one. */
export const plainSample = (line: string): Sample | undefined => {
  if (!line.startsWith('sample ')) return undefined;
  walk.begin(line);
  if (walk.lost) return undefined;
  walk.literal(words.boot);
  const boot = walk.integer(bounds.counter);
  walk.literal(words.sequence);
  const sequence = walk.integer(bounds.counter);
  walk.literal(words.ticks);
  const ticks = walk.integer(bounds.ticks);
  walk.literal(words.resent);
  const resent = walk.follows(words.yes[0]!);
  walk.literal(resent ? words.yes : words.no);
  walk.literal(words.inputs);
  const inputs = walk.hexadecimal();
  const values: SampleValue[] = [];
  for (let before = 0; !walk.isAtEnd() && !walk.lost; ) {
    walk.byte(space);
    const channel = walk.integer(channels);
    walk.byte(equals);
    values.push({ channel, faults: noFaults, reading: reading() });
    if (channel <= before) return undefined;
    before = channel;
  }
  return walk.lost || values.length === 0
    ? undefined
    : { kind: 'sample', boot, sequence, ticks, resent, inputs, values };
};

function reading(): SampleValue['reading'] {
  const number = walk.integer(bounds.deciMicrovolts);
  if (walk.follows(at)) {
    walk.byte(at);
    const coldJunctionCentiCelsius = walk.integer(bounds.coldJunctionCentiCelsius);
    return { form: 'voltage', deciMicrovolts: number, coldJunctionCentiCelsius };
  }
  const { lowest, highest } = bounds.centiCelsius;
  if (number < lowest || number > highest) walk.lost = true;
  return { form: 'temperature', centiCelsius: number };
}

/** Nothing is read beside it. */
const walk = new Walk();
const noFaults: readonly Fault[] = [];
const channels = { lowest: 1, highest: bounds.channelsMaximum };
const words = {
  boot: bytesOf('sample boot='),
  sequence: bytesOf(' sequence='),
  ticks: bytesOf(' ticks='),
  resent: bytesOf(' resent='),
  yes: bytesOf('yes'),
  no: bytesOf('no'),
  inputs: bytesOf(' inputs='),
};
const [space, equals, at] = bytesOf(' =@') as unknown as [number, number, number];
