/** Sums of the voltages of wires, as the loop from one terminal to the other adds them up. */
import type { EmulatedThermocouple } from '../printed-table.ts';
import type { Signal } from '../signal.ts';
import { microvoltsAt } from '../voltage.ts';

/** Microvolts of a wire that lies from one temperature to another; undefined beyond the printed tables. */
export function along(thermocouple: EmulatedThermocouple, fromCelsius: number, toCelsius: number): number | undefined {
  const from = microvoltsAt(thermocouple, fromCelsius);
  const to = microvoltsAt(thermocouple, toCelsius);
  return from === undefined || to === undefined ? undefined : to - from;
}

/** The signal with so many microvolts more; without a number where there is none. */
export function withMore(signal: Signal, microvolts: number | undefined): Signal {
  const { microvolts: before } = signal;
  return {
    ...signal,
    microvolts: before === undefined || microvolts === undefined ? undefined : before + microvolts,
  };
}

/** The signal as if the tip had another temperature. */
export function withTipAt(signal: Signal, celsius: number): Signal {
  return {
    ...withMore(signal, along(signal.thermocouple, signal.tipCelsius, celsius)),
    tipCelsius: celsius,
  };
}
