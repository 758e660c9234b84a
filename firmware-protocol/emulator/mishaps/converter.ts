/** What goes wrong in the converter, in its bus and in what reads it. */
import { type Fault, faults } from '../../codec/frame.ts';
import type { KindOfMishap, KindsOfMishap } from './mishap.ts';

/**
 * A converter whose word is all ones: -0.25 °C at a cold junction of -0.0625 °C, with every bit of fault set. It counts
 * 41.276 uV for a kelvin.
 */
const allOnes = { coldJunctionCelsius: -0.0625, microvolts: (-0.25 + 0.0625) * 41.276 };
const faultsOfAllOnes: readonly Fault[] = ['open', 'short to ground', 'short to supply'];
/** Two moments this close are one: sums of tenths of a second. */
const hair = 1e-6;

const flagged = (fault: Fault): KindOfMishap => ({
  what: `the converter flags ${fault}, and gives no number`,
  source: 'PROTOCOL.md, section 4.2',
  act: ({ signal }) => ({ signal: { ...signal, microvolts: undefined, faults: [fault] } }),
});
const [, shortToGround, shortToSupply, coldJunctionOutOfRange, outOfRange] = faults;

export const converter: KindsOfMishap<
  | 'stuck'
  | 'cold-junction-jump'
  | 'slow-poll'
  | 'bus-zeros'
  | 'bus-ones'
  | 'bus-doubled'
  | 'short-to-ground'
  | 'short-to-supply'
  | 'cold-junction-out-of-range'
  | 'out-of-range'
> = {
  stuck: {
    what: 'the last number is sent again and again, to the digit',
    source: 'drivers that keep the last good value',
    act: ({ signal, kept }) => {
      const held = kept.signal ?? signal;
      return { signal: held, kept: { signal: held } };
    },
  },
  'slow-poll': {
    what: 'new numbers come more seldom than samples: they repeat in blocks',
    source: 'converters read faster than they convert; how long: own choice',
    severity: { unit: 's', means: 'from one new number to the next', usual: 10, lowest: 0.1, highest: 3600 },
    act: ({ signal, severity, seconds, kept }) => {
      const age = (kept.value ?? 0) + seconds;
      if (kept.signal !== undefined && age < severity - hair) {
        return { signal: kept.signal, kept: { signal: kept.signal, value: age } };
      }
      return { signal, kept: { signal, value: 0 } };
    },
  },
  'cold-junction-jump': {
    what: 'the sensor at the terminals is suddenly wrong: all channels shift together',
    source: 'a kelvin there is about a kelvin of type K between 50 and 300 °C',
    severity: {
      unit: 'K',
      means: 'by which it reads too high, or below 0 too low',
      usual: 10,
      lowest: -60,
      highest: 60,
    },
    wholeBoard: true,
    act: ({ signal, severity }) => ({
      signal: { ...signal, coldJunctionCelsius: signal.coldJunctionCelsius + severity },
    }),
  },
  'bus-zeros': {
    what: 'the line from the converter lies low: 0 uV at a cold junction of 0 °C',
    source: 'dead converters whose word is all zeros',
    act: ({ signal }) => ({ signal: { ...signal, microvolts: 0, coldJunctionCelsius: 0 } }),
  },
  'bus-ones': {
    what: 'the line from the converter lies high: just below 0 °C, with every flag that there is',
    source: 'a 32-bit converter word of ones: -0.25 °C, cold junction -0.0625 °C',
    severity: {
      unit: '',
      means: '1: the flags are passed on, 0: the driver drops them',
      usual: 1,
      lowest: 0,
      highest: 1,
    },
    act: ({ signal, severity }) => ({
      signal: { ...signal, ...allOnes, faults: severity >= 0.5 ? faultsOfAllOnes : [] },
    }),
  },
  'bus-doubled': {
    what: 'one clock edge too many: voltage and cold junction are twice what they are',
    source: 'reports of 70 instead of 34.5 °C, from a slipped bit of the converter word',
    act: ({ signal }) => ({
      signal: {
        ...signal,
        microvolts: signal.microvolts === undefined ? undefined : 2 * signal.microvolts,
        coldJunctionCelsius: 2 * signal.coldJunctionCelsius,
      },
    }),
  },
  'short-to-ground': flagged(shortToGround),
  'short-to-supply': flagged(shortToSupply),
  'cold-junction-out-of-range': flagged(coldJunctionOutOfRange),
  'out-of-range': flagged(outOfRange),
};
