/** What is entered of a pass, and the energy that it brought, in words. */
import type { InterpassRound, JudgedBefore, PassHeat, ShownCorrection } from '../judgement/pass-status.ts';
import { type Instant, type JoulesPerMetre, kilojoulesPerMillimetre, type MilliCelsius } from '../measure/quantity.ts';
import type { UnitSystem } from '../measure/units.ts';
import { detailsOf, type PassCorrectionAct, type PassDetails, type PassFacts } from '../weld/pass-acts.ts';
import type { HeatWindow } from '../weld/welding.ts';
import { handValueText } from './instrument.ts';
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
    details.revolutionSeconds === undefined ? undefined : `${details.revolutionSeconds} s a revolution`,
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

/** An instant as the outlet writes it. */
export type When = (at: Instant) => string;

/** "pass 4", "begun 10:38:00", "welder W. Example", "24 V". */
const factTexts = (facts: PassFacts, units: UnitSystem, when: When): readonly string[] => [
  ...(facts.pass === undefined ? [] : [`pass ${facts.pass}`]),
  ...(facts.passKind === undefined ? [] : [facts.passKind]),
  ...(facts.welder === undefined ? [] : [`welder ${facts.welder}`]),
  ...(facts.startedAt === undefined ? [] : [`begun ${when(facts.startedAt)}`]),
  ...(facts.endedAt === undefined ? [] : [`ended ${when(facts.endedAt)}`]),
  ...detailTexts(facts, units),
];

/** The entry by which a slip is put right. */
export const correctionActText = (act: PassCorrectionAct, units: UnitSystem, when: When): string => {
  if (act.struck === true) return `Pass ${act.pass} struck: no such pass was welded. Reason: ${act.reason}`;
  const { name, passKind, welder, startedAt, endedAt } = act;
  const right = {
    ...(name === undefined ? {} : { pass: name }),
    ...(passKind === undefined ? {} : { passKind }),
    ...(welder === undefined ? {} : { welder }),
    ...(startedAt === undefined ? {} : { startedAt: startedAt as Instant }),
    ...(endedAt === undefined ? {} : { endedAt: endedAt as Instant }),
    ...detailsOf(act),
  };
  return `Pass ${act.pass} corrected: ${factTexts(right, units, when).join(', ')}. Reason: ${act.reason}`;
};

/** A correction beside the pass: what it was entered with, how it was judged then, who put it right and why. */
export const correctionText = (correction: ShownCorrection, units: UnitSystem, when: When): string => {
  const { by, at, reason, struck, was, judged } = correction;
  const before = factTexts(was, units, when);
  const then = judged === undefined ? '' : ` (judged then: ${judgedBeforeText(judged)})`;
  const entered = before.length === 0 ? 'with nothing of it' : before.join(', ');
  return struck === true
    ? `Struck by ${by} at ${when(at)}${then}: ${reason}`
    : `Entered at first: ${entered}${then}. Put right by ${by} at ${when(at)}: ${reason}`;
};

const judgedBeforeText = ({ minimum, maximum, heat }: JudgedBefore): string =>
  [
    `minimum ${minimum}`,
    ...(maximum === 'not needed' ? [] : [`maximum ${maximum}`]),
    ...(heat === 'within' || heat === 'below' || heat === 'above' || heat === 'not given'
      ? [`heat input ${heatStates[heat]}`]
      : []),
  ].join(', ');

/** Of continuous welding: "10:02: 240 °C at I1; 10:04: not read". */
export const roundsText = (
  rounds: readonly InterpassRound[],
  limit: MilliCelsius | undefined,
  units: UnitSystem,
  when: When,
): string =>
  rounds
    .map(({ at, probe, temperature, bound }) => {
      if (temperature === undefined) return `${when(at)}: not read`;
      return `${when(at)}: ${handValueText({ temperature, ...(bound === undefined ? {} : { bound }) }, units, { limit })}${probe === undefined ? '' : ` at ${probe}`}`;
    })
    .join('; ');
