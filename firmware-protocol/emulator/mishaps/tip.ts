/** What goes wrong at the tip and in the wire itself, and tips that are where another one should be. */
import type { KindsOfMishap } from './mishap.ts';
import { along, withMore, withTipAt } from './voltage-change.ts';

/** Draughts move a tip in the air by this share of what the part is warmer than the air; own choice. */
const draughtShare = 0.005;
/** A tip that touches the heater follows it as a bare bead does, and flickers with it; own choice. */
const heater = { followSeconds: 5, flicker: 0.15 };

export const tip: KindsOfMishap<'detached' | 'tip-on-heater' | 'drift' | 'swapped'> = {
  detached: {
    what: 'the tip comes off the part and hangs in the air: it falls as fast as a bead, then wavers with draughts',
    source:
      'rho c d / (6 h) of a steel bead in air, h 50 to 20 W/(m2 K): 1 mm 13 to 33 s, 1.5 mm 20 to 49 s, 3 mm 39 to 98 s',
    severity: { unit: 's', means: 'time in which the bead follows the air', usual: 30, lowest: 5, highest: 200 },
    act: ({ signal, severity, now, seconds, kept, own }) => {
      const before = kept.value ?? signal.tipCelsius;
      const value = now.airCelsius + (before - now.airCelsius) * Math.exp(-seconds / severity);
      const draught = own.bell() * draughtShare * (signal.tipCelsius - now.airCelsius);
      return { signal: withTipAt(signal, value + (seconds > 0 ? draught : 0)), kept: { value } };
    },
  },
  'tip-on-heater': {
    what: 'the tip touches the heater or stands in its flame: high and restless, and down within seconds of heat off',
    source: 'spikes of 20 to 200 K above the neighbours are common experience; how it follows: own choice',
    severity: { unit: 'K', means: 'above the part at full power', usual: 60, lowest: 1, highest: 400 },
    act: ({ signal, severity, seconds, kept, own }) => {
      const goal = severity * signal.heating;
      const before = kept.value ?? goal;
      const value = goal + (before - goal) * Math.exp(-seconds / heater.followSeconds);
      return {
        signal: withTipAt(signal, signal.tipCelsius + value * (1 + heater.flicker * own.bell())),
        kept: { value },
      };
    },
  },
  drift: {
    what: 'the wire ages where it is hot: an error that grows with time at temperature',
    source:
      'type K changes by a few kelvin between 250 and 600 °C (from memory); how fast here: own choice, much faster',
    severity: {
      unit: 'K/h',
      means: 'for each 100 K between tip and terminals; below 0 it reads low',
      usual: 4,
      lowest: -100,
      highest: 100,
    },
    act: ({ signal, severity, seconds, kept }) => {
      const warm = (signal.tipCelsius - signal.terminalsCelsius) / 100;
      const value = (kept.value ?? 0) + (severity * warm * seconds) / 3600;
      const each = along(signal.thermocouple, signal.tipCelsius - 0.5, signal.tipCelsius + 0.5);
      return { signal: withMore(signal, each === undefined ? undefined : value * each), kept: { value } };
    },
  },
  swapped: {
    what: 'two probes have changed places at the terminals: right shapes, wrong places',
    source: 'none needed',
    asks: 'other',
    act: ({ signal, counterpart }) => {
      if (counterpart === undefined) return { signal };
      const { channel, thermocouple } = signal;
      return { signal: { ...counterpart, channel, thermocouple } };
    },
  },
};
