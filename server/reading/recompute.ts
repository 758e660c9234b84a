/**
 * The temperature of a kept value, made again from its raw number: what a third party does, and what a
 * corrected thermocouple type asks for.
 *
 * Only a value that was believed is made again. A fault that the board flagged is not in the raw number,
 * so a value kept with a fault keeps it: recomputing may take belief away and never gives it.
 */

import { readNumber } from '../measure/number-text.ts';
import type { ThermocoupleType } from '../measure/thermocouple.ts';
import type { ScanValue } from '../weld/scan.ts';
import { type Junction, junctionAt, junctionOfVoltage } from './junction.ts';

/** The value as its raw number gives it for the thermocouple type of the probe; probe and raw stay. */
export const recompute = (value: ScanValue, type: ThermocoupleType): ScanValue => {
  const { probe, raw } = value;
  return value.quality === 'good' ? { probe, ...fromRaw(value, type), raw } : value;
};

const fromRaw = ({ raw }: ScanValue, type: ThermocoupleType): Junction => {
  switch (raw.form) {
    case 'voltage':
      return junctionOfVoltage(type, raw.deciMicrovolts, raw.coldJunction);
    case 'temperature':
      return junctionAt(type, raw.reported / 1000);
    case 'text': {
      const number = readNumber(raw.text);
      return number.kind === 'number' ? junctionAt(type, number.value) : { quality: 'no reading' };
    }
    case 'none':
      return { quality: 'no reading' };
  }
};
