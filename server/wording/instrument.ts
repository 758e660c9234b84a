/** Instruments in words: what happened to one, and how its calibration stands. */
import { type MilliCelsius, type Millikelvin, milliCelsius } from '../measure/quantity.ts';
import { differenceToFahrenheit, type UnitSystem } from '../measure/units.ts';
import type { Act } from '../weld/entry.ts';
import type { Bound } from '../weld/hand-reading.ts';
import type { HandKind } from '../weld/instrument.ts';
import type { Procedure } from '../weld/procedure.ts';
import { boundText, differenceUnit, limitText, temperatureText } from './temperature.ts';

export type InstrumentAct = Extract<Act, { kind: 'calibration' | 'verification' | 'adjustment' }>;

/** One line without a full stop. */
export const instrumentActText = (act: InstrumentAct, units: UnitSystem): string => {
  switch (act.kind) {
    case 'calibration': {
      const points = act.corrections?.length ?? 0;
      const due = act.dueOn === undefined ? '' : `, due ${act.dueOn}`;
      const found = points === 0 ? '' : `, corrections at ${points} ${points === 1 ? 'point' : 'points'}`;
      return `Calibration of ${act.instrument}: certificate ${act.certificate} of ${act.calibratedOn}${due}${found}`;
    }
    case 'verification': {
      const read = temperatureText(milliCelsius(act.readCelsius), units);
      const reference = temperatureText(milliCelsius(act.referenceCelsius), units);
      return `Verification of ${act.instrument}: read ${read} where ${act.reference} read ${reference}, ${act.result}`;
    }
    case 'adjustment':
      return `Adjustment of ${act.instrument}: ${act.what}. Its calibration before holds no longer`;
  }
};

/** "±2.4 K", rounded up, since an uncertainty must not look smaller than it is; with the correction that is in the value. */
export const plusMinusText = (
  expanded: Millikelvin,
  correction: Millikelvin | undefined,
  units: UnitSystem,
): string => {
  const width = `±${uncertaintyText(expanded, units)}`;
  return correction === undefined ? width : `${width}, corrected ${signedDifferenceText(correction, units)}`;
};

/** "2.4 K", rounded up. */
export const uncertaintyText = (value: number, units: UnitSystem): string =>
  `${tenths(Math.ceil(inUnits(value, units) / 100 - 1e-9))} ${differenceUnit(units)}`;

/** "simple acceptance: ..." or "guarded: ...", with the width of the band. */
export const decisionRuleText = (procedure: Pick<Procedure, 'decisionRule' | 'guardFactor'> | undefined): string =>
  procedure?.decisionRule === 'guarded'
    ? `guarded (ISO 14253-1): a limit counts as kept or broken only where the reading lies beyond it by ${procedure.guardFactor} times its standard uncertainty; within that band it cannot be judged`
    : 'simple acceptance: the reading is compared with the limit as it is, without an allowance for uncertainty';

/** Codes of ISO 13916 for what a temperature was measured with (from memory; check against your copy). */
export const instrumentCode: Readonly<Record<HandKind | 'thermocouple', string>> = {
  crayon: 'TS',
  'contact thermometer': 'CT',
  thermocouple: 'TE',
  pyrometer: 'TB',
};
export const instrumentCodesText =
  'Codes of ISO 13916 (from memory; check against your copy): TS crayon or other temperature-sensitive material, CT contact thermometer, TE thermocouple, TB pyrometer or other contactless instrument.';

/** "contact thermometer (CT)". */
export const handKindText = (kind: HandKind): string => `${kind} (${instrumentCode[kind]})`;

/** "182 \u00B0C", of a crayon "at least 150 \u00B0C" or "below 150 \u00B0C". */
export const handValueText = (
  { temperature, bound }: { readonly temperature: MilliCelsius; readonly bound?: Bound | undefined },
  units: UnitSystem,
  beside: Parameters<typeof temperatureText>[2] = {},
): string => (bound === undefined ? temperatureText(temperature, units, beside) : boundText(bound, temperature, units));

/** What was typed, as it was typed: "151.5 °C", of a crayon "below 150 °C". */
export const typedHandText = (celsius: number, shows: Bound | undefined, units: UnitSystem): string =>
  shows === undefined ? limitText(milliCelsius(celsius), units) : boundText(shows, milliCelsius(celsius), units);

export const calibrationText = {
  valid: 'shown',
  overdue: 'overdue',
  'not known': 'not known',
  failed: 'found outside its limit',
} as const;

/** "+2.4 K", to the nearest tenth. */
export const signedDifferenceText = (value: Millikelvin, units: UnitSystem): string => {
  const shown = Math.round(inUnits(value, units) / 100);
  return `${shown < 0 ? '\u2212' : '+'}${tenths(Math.abs(shown))} ${differenceUnit(units)}`;
};
const inUnits = (value: number, units: UnitSystem): number =>
  units === 'inch' ? differenceToFahrenheit(value) : value;
const tenths = (value: number): string => (value / 10).toFixed(1);
