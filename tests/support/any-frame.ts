/** Arbitrary frames inside the bounds of the wire, for laws. */
import fc from 'fast-check';
import { bounds, type Span } from '../../firmware-protocol/codec/bounds.ts';
import { type Frame, faults, type SampleValue, thermocoupleLetters } from '../../firmware-protocol/codec/frame.ts';

const within = ({ lowest, highest }: Span): fc.Arbitrary<number> => fc.integer({ min: lowest, max: highest });
const name = fc.stringMatching(/^[A-Za-z0-9._-]{1,32}$/);
const command = within(bounds.short);
const channelNumbers = fc
  .uniqueArray(fc.integer({ min: 1, max: bounds.channelsMaximum }), { minLength: 1 })
  .map((numbers) => numbers.sort((a, b) => a - b));
const someFaults = fc.subarray([...faults]);

const measured = fc.oneof(
  fc.record({
    form: fc.constant('voltage' as const),
    deciMicrovolts: within(bounds.deciMicrovolts),
    coldJunctionCentiCelsius: within(bounds.coldJunctionCentiCelsius),
  }),
  fc.record({ form: fc.constant('temperature' as const), centiCelsius: within(bounds.centiCelsius) }),
);

const value: fc.Arbitrary<Omit<SampleValue, 'channel'>> = fc.oneof(
  fc.record({ faults: someFaults, reading: measured }),
  fc.record({
    faults: someFaults.filter((chosen) => chosen.length > 0),
    reading: fc.constant({ form: 'none' as const }),
  }),
);

const anyHello = channelNumbers.chain((numbers) =>
  fc.record({
    kind: fc.constant('hello' as const),
    revision: fc.constant(1),
    board: name,
    firmware: name,
    simulated: fc.boolean(),
    boot: within(bounds.counter),
    ticks: within(bounds.ticks),
    periodMilliseconds: within(bounds.periodMilliseconds),
    channels: fc.tuple(
      ...numbers.map((channel) =>
        fc.record({
          channel: fc.constant(channel),
          form: fc.constantFrom('voltage' as const, 'temperature' as const),
          thermocouple: fc.constantFrom(...thermocoupleLetters),
        }),
      ),
    ),
    inputs: fc.integer({ min: 0, max: bounds.inputsMaximum }),
    linesKept: within(bounds.short),
  }),
);

export const anySample = channelNumbers.chain((numbers) =>
  fc.record({
    kind: fc.constant('sample' as const),
    boot: within(bounds.counter),
    sequence: within(bounds.counter),
    ticks: within(bounds.ticks),
    resent: fc.boolean(),
    inputs: fc.integer({ min: 0, max: 0xffff }),
    values: fc.tuple(...numbers.map((channel) => value.map((rest) => ({ channel, ...rest })))),
  }),
);

export const anyFrame: fc.Arbitrary<Frame> = fc.oneof(
  anyHello,
  anySample,
  fc.record({
    kind: fc.constant('reply' as const),
    command,
    outcome: fc.constantFrom('done' as const, 'refused' as const, 'not kept' as const),
  }),
  fc.record({ kind: fc.constantFrom('ask hello' as const, 'heartbeat' as const), command }),
  fc.record({ kind: fc.constant('period' as const), command, periodMilliseconds: within(bounds.periodMilliseconds) }),
  fc.record({ kind: fc.constant('send again' as const), command, fromSequence: within(bounds.counter) }),
  fc.record({
    kind: fc.constant('lamp' as const),
    command,
    state: fc.constantFrom('off' as const, 'on' as const, 'slow' as const, 'fast' as const),
  }),
  fc.record({ kind: fc.constant('horn' as const), command, state: fc.constantFrom('off' as const, 'on' as const) }),
  fc.record({
    kind: fc.constant('permission' as const),
    command,
    state: fc.constantFrom('withheld' as const, 'given' as const),
  }),
);
