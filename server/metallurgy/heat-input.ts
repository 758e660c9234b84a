/**
 * Heat input Q = k * E in kJ/mm, with the efficiency k of the process (EN 1011-1, ISO/TR 17671-1) and the arc
 * energy E = U * I / v / 1000 (ISO/TR 18491), or by the instantaneous energy or power that a waveform-controlled
 * source shows (formulas of ISO/TR 18491, from memory). A heat input that is entered as such already holds its k.
 */
import type { Joint } from '../weld/joint.ts';
import type { PassDetails } from '../weld/pass-acts.ts';
import type { CountedEnergy } from '../weld/welding.ts';
import type { WorkingInput } from './answer.ts';
import type { Fact } from './fact.ts';
import { plain, steady } from './number.ts';

type Process = Joint['process'];

/** Thermal efficiency by ISO 4063 process. All as published in EN 1011-1; that of 138 from memory. */
const arcEfficiency: Readonly<Record<Process, number>> = {
  '121': 1.0,
  '111': 0.8,
  '114': 0.8,
  '131': 0.8,
  '135': 0.8,
  '136': 0.8,
  '137': 0.8,
  '138': 0.8,
  '141': 0.6,
  '15': 0.6,
};

/** kJ/mm from volts, amperes and millimetres per second; without k. */
export const arcEnergy = (volts: number, amperes: number, millimetresPerSecond: number): number =>
  (volts * amperes) / millimetresPerSecond / 1000;

export function heatInput(joint: Joint): Fact {
  const stated = joint.heatInput;
  if (stated === 'not stated') {
    return { known: false, ask: 'the heat input: kJ/mm, or volts, amperes and travel speed' };
  }
  if ('kilojoulesPerMillimetre' in stated) {
    return { known: true, input: quantity(stated.kilojoulesPerMillimetre, 'stated heat input, k included') };
  }
  const k = arcEfficiency[joint.process];
  const { energy, words } = arcEnergyOf(stated);
  const from = `k ${k} (process ${joint.process}) × ${words} = ${k} × ${plain(energy)} kJ/mm`;
  return { known: true, input: quantity(k * energy, from) };
}

/**
 * Arc energy without k in kJ/mm, as ASME IX QW-409.1 counts (second-hand). Of a heat input that was entered as
 * such it is that divided by k. Undefined where nothing is stated.
 */
export function arcEnergyShown(joint: Joint): WorkingInput | undefined {
  const stated = joint.heatInput;
  if (stated === 'not stated') return undefined;
  if (!('kilojoulesPerMillimetre' in stated)) {
    const { energy, words } = arcEnergyOf(stated);
    return { name: 'E', value: energy, unit: 'kJ/mm', from: words };
  }
  const k = arcEfficiency[joint.process];
  const value = stated.kilojoulesPerMillimetre / k;
  return { name: 'E', value, unit: 'kJ/mm', from: `stated heat input / k ${k} (process ${joint.process})` };
}

type Arc = Exclude<Joint['heatInput'], 'not stated' | { readonly kilojoulesPerMillimetre: number }>;

/** Arc energy in kJ/mm, and what it was worked out from. */
function arcEnergyOf(arc: Arc): { readonly energy: number; readonly words: string } {
  if ('instantaneousJoules' in arc) {
    const { instantaneousJoules, beadMillimetres } = arc;
    return {
      energy: instantaneousJoules / beadMillimetres / 1000,
      words: `instantaneous energy ${instantaneousJoules} J / ${beadMillimetres} mm`,
    };
  }
  const { millimetresPerSecond: speed } = arc;
  if ('instantaneousWatts' in arc) {
    const { instantaneousWatts: watts } = arc;
    return { energy: watts / speed / 1000, words: `instantaneous power ${watts} W / ${speed} mm/s` };
  }
  const { volts, amperes } = arc;
  return { energy: arcEnergy(volts, amperes, speed), words: `${volts} V × ${amperes} A / ${speed} mm/s` };
}

/** What is still to be asked of a pass: volts and amperes, and how fast it went along. */
export type MissingOfArc = 'volts' | 'amperes' | 'travel speed';

export type PassEnergy =
  /** kJ/mm, and what it was worked out from. */
  | { readonly known: true; readonly kilojoulesPerMillimetre: number; readonly words: string }
  | { readonly known: false; readonly missing: readonly MissingOfArc[] };

/** The energy of one pass as it was welded. The energy that a source shows for the run stands before volts and amperes. */
export function passEnergy(run: PassDetails, process: Process, counted: CountedEnergy): PassEnergy {
  const arc = arcOf(run);
  if (Array.isArray(arc)) return { known: false, missing: arc };
  const { energy, words } = arcEnergyOf(arc as Arc);
  const k = counted === 'heat input' ? arcEfficiency[process] : 1;
  return {
    known: true,
    kilojoulesPerMillimetre: steady(k * energy),
    words: counted === 'heat input' ? `k ${k} (process ${process}) × ${words}` : words,
  };
}

function arcOf(run: PassDetails): Arc | MissingOfArc[] {
  const { volts, amperes, runOutMillimetres, arcSeconds, instantaneousJoules } = run;
  if (instantaneousJoules !== undefined && runOutMillimetres !== undefined)
    return { instantaneousJoules, beadMillimetres: runOutMillimetres };
  const isTimed = runOutMillimetres !== undefined && arcSeconds !== undefined;
  const speed = run.millimetresPerSecond ?? (isTimed ? steady(runOutMillimetres / arcSeconds) : undefined);
  if (volts !== undefined && amperes !== undefined && speed !== undefined)
    return { volts, amperes, millimetresPerSecond: speed };
  return [
    ...(volts === undefined ? (['volts'] as const) : []),
    ...(amperes === undefined ? (['amperes'] as const) : []),
    ...(speed === undefined ? (['travel speed'] as const) : []),
  ];
}

const quantity = (value: number, from: string): WorkingInput => ({ name: 'Q', value, unit: 'kJ/mm', from });
