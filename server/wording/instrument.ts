/** Instruments in words: what happened to one, and how its calibration stands. */
import { milliCelsius } from '../measure/quantity.ts';
import type { UnitSystem } from '../measure/units.ts';
import type { Act } from '../weld/entry.ts';
import { temperatureText } from './temperature.ts';

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
