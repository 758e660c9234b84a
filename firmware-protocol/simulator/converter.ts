/**
 * A thermocouple converter of the MAX31856 kind, register by register, as the firmware meets it: settings that it has
 * or has lost, conversions that take their time, noise of its own, fault bits. Registers, bits and the scale of voltage
 * mode are from memory of the part's data sheet; noise, conversion time and full scale from its stored text.
 */

import type { Noise } from '../emulator/noise.ts';
import type { Signal } from '../emulator/signal.ts';
import { celsiusAt, microvoltsAt } from '../emulator/voltage.ts';

/** What may be wrong with the part itself. */
export type ConverterFault =
  | 'none'
  /** Not fitted: the data line is pulled up. */
  | 'missing'
  /** Burnt: it holds the data line low. */
  | 'dead'
  /** It takes commands and never has a result. */
  | 'stuck';

export interface Converter {
  select(): void;
  exchange(byte: number): number;
  /** The select line rises; a conversion that was asked for begins. */
  release(): void;
  /** The line that is low once a result waits. */
  isReady(): boolean;
  fault(fault: ConverterFault): void;
  /** Its supply dips: it has the settings of power up again. */
  dip(): void;
}

export interface ConverterWorld {
  /** Milliseconds that the processor has run. */
  now(): number;
  /** What is at its terminals; undefined where nothing is connected. */
  signal(): Signal | undefined;
  readonly noise: Noise;
}

const registersAtPowerUp = [
  0x00, 0x03, 0xff, 0x7f, 0xc0, 0x7f, 0xff, 0x80, 0x00, 0x00, 0x00, 0x00, 0x00, 0x00, 0x00, 0x00,
];
const [cr0, cr1, cold, code, faultBits] = [0x00, 0x01, 0x0a, 0x0c, 0x0f];
const [oneShot, openTest, fiftyHertz, voltageMode] = [0x40, 0x30, 0x01, 0x08];
const bits = { coldRange: 0x80, over: 0x02, open: 0x01 } as const;
/** Typical, milliseconds; the test for an open wire comes on top (own estimate from the shortest setting). */
const conversion = { fiftyHertz: 169, sixtyHertz: 143, openTest: 14 } as const;
const noiseMicrovolts = 1.3;
const microvoltsPerCode = 1e6 / (8 * 1.6 * 2 ** 17);
const codeEnd = 2 ** 17 - 1;

export function createConverter(world: ConverterWorld): Converter {
  let registers = [...registersAtPowerUp];
  let fault: ConverterFault = 'none';
  let place: number | undefined;
  let writes = false;
  let asked = false;
  let readyAt: number | undefined;
  let waits = false;

  /** A conversion that has ended by now is entered into the registers. */
  const settle = (): void => {
    if (readyAt === undefined || world.now() < readyAt) return;
    readyAt = undefined;
    const signal = world.signal();
    const over = signal?.faults.includes('short to supply') ?? false;
    const open = signal === undefined || signal.faults.includes('open');
    registers[faultBits] =
      (over ? bits.over : 0) |
      (open && (registers[cr0]! & openTest) !== 0 ? bits.open : 0) |
      (signal?.faults.includes('cold junction out of range') ? bits.coldRange : 0);
    // Beyond its supply it converts nothing: the old number stays, and no result waits.
    if (over) return;
    writeCold(signal?.coldJunctionCelsius ?? 25);
    writeCode(signal);
    waits = true;
  };

  const writeCold = (celsius: number): void => {
    const value = Math.max(-32768, Math.min(32767, Math.round(celsius * 64) * 4)) & 0xffff;
    registers[cold] = value >> 8;
    registers[cold + 1] = value & 0xff;
  };

  const writeCode = (signal: Signal | undefined): void => {
    const isVoltage = (registers[cr1]! & voltageMode) !== 0;
    const value = isVoltage ? voltageCode(signal) : temperatureCode(signal);
    const shifted = (value & 0x7ffff) << 5;
    registers[code] = (shifted >> 16) & 0xff;
    registers[code + 1] = (shifted >> 8) & 0xff;
    registers[code + 2] = shifted & 0xff;
  };

  /** An open input drifts about its bias; whatever is too much stops at the end of the scale. */
  const voltageCode = (signal: Signal | undefined): number => {
    const microvolts =
      signal === undefined ? world.noise.bell() * 400 : (signal.microvolts ?? Number.POSITIVE_INFINITY);
    const noisy = (microvolts + world.noise.bell() * noiseMicrovolts) / microvoltsPerCode;
    return Math.round(Math.max(-codeEnd - 1, Math.min(codeEnd, noisy)));
  };

  /** Left at its first settings it makes temperatures of type K, whatever the wire. */
  const temperatureCode = (signal: Signal | undefined): number => {
    const reference = microvoltsAt('K', signal?.coldJunctionCelsius ?? 25) ?? 0;
    const celsius = celsiusAt('K', (signal?.microvolts ?? 0) + reference);
    return Math.round((celsius ?? 0) * 128);
  };

  const write = (register: number, byte: number): void => {
    if (register < cold) registers[register] = byte & (register === cr0 ? ~oneShot : 0xff);
    if (register === cr0 && (byte & oneShot) !== 0) asked = true;
  };

  return {
    select: () => {
      place = undefined;
      asked = false;
      settle();
    },
    exchange: (byte) => {
      if (fault === 'missing') return 0xff;
      if (fault === 'dead') return 0x00;
      if (place === undefined) {
        writes = (byte & 0x80) !== 0;
        place = byte & 0x0f;
        return 0;
      }
      const register = place;
      place = (place + 1) & 0x0f;
      if (writes) {
        write(register, byte);
        return 0;
      }
      if (register === code + 2) waits = false;
      return registers[register]!;
    },
    release: () => {
      if (!asked || fault !== 'none') return;
      asked = false;
      waits = false;
      const filter = (registers[cr0]! & fiftyHertz) !== 0 ? conversion.fiftyHertz : conversion.sixtyHertz;
      readyAt = world.now() + filter + ((registers[cr0]! & openTest) !== 0 ? conversion.openTest : 0);
    },
    isReady: () => {
      settle();
      return waits && fault === 'none';
    },
    fault: (next) => {
      fault = next;
    },
    dip: () => {
      registers = [...registersAtPowerUp];
      readyAt = undefined;
      waits = false;
    },
  };
}
