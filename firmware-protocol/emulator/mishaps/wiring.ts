/** What goes wrong between the tip and the terminals: breaks, shorts, crossed and foreign wires. */
import { head } from '../channel.ts';
import type { Signal } from '../signal.ts';
import type { KindsOfMishap, Severity } from './mishap.ts';
import { along, withMore } from './voltage-change.ts';

const nothing = (signal: Signal): Signal => ({ ...signal, microvolts: undefined, faults: ['open'] });

/** Of a cable whose head is warmed by the part. */
const headSeverity: Severity = {
  unit: 'K',
  means: 'how far the connection head stands above the air for each 100 K of the tip, in the end',
  usual: head.share * 100,
  lowest: 0,
  highest: 60,
};

/** Temperature of the head where the part warms it as much as asked. */
const headAt = ({ headCelsius }: Signal, airCelsius: number, severity: number): number =>
  airCelsius + ((headCelsius - airCelsius) * severity) / headSeverity.usual;

const noiseMicrovolts = 0.8;
/** A floating input is drawn back to no voltage by what leaks, so slowly; own choice. */
const leakSeconds = 20;

export const wiring: KindsOfMishap<
  | 'open'
  | 'floating'
  | 'short'
  | 'dead-input'
  | 'reversed-terminal'
  | 'reversed-extension'
  | 'copper-extension'
  | 'wrong-type'
> = {
  open: {
    what: 'the wire is broken and the converter flags it; below 1 it comes and goes',
    source: 'ordinary converters with a check for a broken wire; recorded thermocouples lost up to 409 of 501 readings',
    severity: { unit: '', means: 'share of the time that it is open', usual: 1, lowest: 0.01, highest: 1 },
    act: ({ signal, severity, own }) => ({ signal: own.even() < severity ? nothing(signal) : signal }),
  },
  floating: {
    what: 'the wire is broken and no converter notices: the number wanders about the cold junction',
    source: 'recorded thermocouples that broke; how fast it wanders: own choice',
    severity: { unit: 'uV', means: 'how far it wanders in a second', usual: 300, lowest: 1, highest: 20_000 },
    act: ({ signal, severity, seconds, kept, own }) => {
      const before = kept.value ?? signal.microvolts ?? 0;
      const value = before * Math.exp(-seconds / leakSeconds) + own.bell() * severity * Math.sqrt(seconds);
      return { signal: { ...signal, microvolts: value }, kept: { value } };
    },
  },
  short: {
    what: 'the pair is pinched at the head: it reads towards the temperature of that place',
    source: 'E = E(Ts) + (E(T) - E(Ts)) Rs / (Rs + Rl), two resistances in a loop of two voltages',
    severity: {
      unit: '',
      means: 'share of the voltage that is lost, Rl / (Rs + Rl): 1 is a dead short, 0.5 a short as good as the leads',
      usual: 1,
      lowest: 0.001,
      highest: 1,
    },
    act: ({ signal, severity }) => {
      const beyond = along(signal.thermocouple, signal.headCelsius, signal.tipCelsius);
      return { signal: withMore(signal, beyond === undefined ? undefined : -severity * beyond) };
    },
  },
  'dead-input': {
    what: 'the input is dead: no voltage, so that it reads the terminals',
    source: 'E = 0 reads the cold junction',
    act: ({ signal, own }) => ({ signal: { ...signal, microvolts: own.bell() * noiseMicrovolts } }),
  },
  'reversed-terminal': {
    what: 'the legs are crossed at the terminals: it falls as the part warms',
    source: 'E = -(E(T) - E(Tc)): type K at 150 °C and 25 °C reads -120.0 °C',
    act: ({ signal }) => ({
      signal: { ...signal, microvolts: signal.microvolts === undefined ? undefined : -signal.microvolts },
    }),
  },
  'reversed-extension': {
    what: 'the cable is crossed at both ends: off by twice what the head is warmer than the terminals',
    source: 'loop sum E(T) - 2 E(Th) + 2 E(Tc): type K at 150 °C, head 60 °C, terminals 25 °C reads 80 °C',
    severity: headSeverity,
    act: ({ signal, severity, now }) => {
      const cable = along(signal.thermocouple, signal.terminalsCelsius, headAt(signal, now.airCelsius, severity));
      return { signal: withMore(signal, cable === undefined ? undefined : -2 * cable) };
    },
  },
  'copper-extension': {
    what: 'the cable is copper: off by what the head is warmer than the terminals',
    source: 'loop sum E(T) - E(Th) + E(Tc): type K at 150 °C, head 60 °C, terminals 25 °C reads 114.7 °C',
    severity: headSeverity,
    act: ({ signal, severity, now }) => {
      const cable = along(signal.thermocouple, signal.terminalsCelsius, headAt(signal, now.airCelsius, severity));
      return { signal: withMore(signal, cable === undefined ? undefined : -cable) };
    },
  },
  'wrong-type': {
    what: 'the wire is of another type than the input is set to: right at ambient, a constant ratio off above it',
    source: 'IEC 60584-1 as the printed tables have it: a J wire on an input set to K reads 189.8 °C at 150 °C',
    asks: 'wire',
    act: ({ signal, wire }) => {
      const [is, set] = [wire ?? signal.thermocouple, signal.thermocouple].map((type) =>
        along(type, signal.terminalsCelsius, signal.tipCelsius),
      );
      return { signal: withMore(signal, is === undefined || set === undefined ? undefined : is - set) };
    },
  },
};
