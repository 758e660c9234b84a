/** What is entered of a pass, and the energy that it brought, in words. */
import type { PassHeat } from '../judgement/pass-status.ts';
import { type JoulesPerMetre, kilojoulesPerMillimetre } from '../measure/quantity.ts';
import type { UnitSystem } from '../measure/units.ts';
import type { PassDetails } from '../weld/pass-acts.ts';
import type { HeatWindow } from '../weld/welding.ts';
import { heatInputFigureText, lengthText, travelText } from './length.ts';
import { listText } from './list.ts';

/** "layer 2", "side A", "24 V": what is stated, in the order of the form. */
export const detailTexts = (details: PassDetails, units: UnitSystem): readonly string[] => {
  const { layer, side, where, batch, volts, amperes, millimetresPerSecond: speed, stops } = details;
  const { runOutMillimetres: length, arcSeconds, instantaneousJoules: energy } = details;
  return [
    layer === undefined ? undefined : `layer ${layer}`,
    side === undefined ? undefined : `side ${side}`,
    where,
    details.process === undefined ? undefined : `process ${details.process}`,
    batch,
    volts === undefined ? undefined : `${volts} V`,
    amperes === undefined ? undefined : `${amperes} A`,
    speed === undefined ? undefined : travelText(speed, units),
    length === undefined ? undefined : `${lengthText(length, units)} long`,
    arcSeconds === undefined ? undefined : `${arcSeconds} s of arc`,
    energy === undefined ? undefined : `${energy} J shown`,
    stops === undefined ? undefined : `stopped at ${stops}`,
  ].filter((text) => text !== undefined && text !== '') as string[];
};

/** "1.024 kJ/mm", with more decimals where three would hide on which side of its limit it lies. */
export const energyText = (energy: JoulesPerMetre, units: UnitSystem, limit?: JoulesPerMetre): string => {
  const text = heatInputFigureText(kilojoulesPerMillimetre(energy), units);
  if (limit === undefined || energy === limit) return text;
  const isHidden = text === heatInputFigureText(kilojoulesPerMillimetre(limit), units);
  return isHidden ? heatInputFigureText(kilojoulesPerMillimetre(energy), units, 6) : text;
};

/** What the energy is called that is counted: with the efficiency of the process, or without. */
export const countedText = (counted: PassHeat['counted']): string =>
  counted === 'heat input' ? 'Heat input' : 'Arc energy';

/** "1.2 kJ/mm, within", "not given: volts and travel speed". */
export const passHeatText = ({ state, energy, missing }: PassHeat, units: UnitSystem): string => {
  if (energy === undefined) {
    const asked = listText(missing ?? []);
    return state === 'not given' ? `not given: ${asked}` : state === 'running' ? 'when it ends' : 'not entered';
  }
  const text = energyText(energy, units);
  return state === 'not asked' || state === 'running' ? text : `${text}, ${heatStates[state]}`;
};

const heatStates = {
  within: 'within its window',
  below: 'below its window',
  above: 'above its window',
  'not given': 'not given',
} as const;

/** "Heat input 0.8 to 1.6 kJ/mm", "Arc energy at most 1.6 kJ/mm". */
export const windowText = (window: HeatWindow, units: UnitSystem): string => {
  const { counted, minimumKilojoulesPerMillimetre: low, maximumKilojoulesPerMillimetre: high } = window;
  const name = countedText(counted);
  if (low === undefined) return `${name} at most ${heatInputFigureText(high!, units)}`;
  if (high === undefined) return `${name} at least ${heatInputFigureText(low, units)}`;
  return `${name} ${heatInputFigureText(low, units)} to ${heatInputFigureText(high, units)}`;
};
