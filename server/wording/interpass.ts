/** Interpass between two passes: in the window, too hot with its trend and the time to go, or not judged. */
import type { Interpass, Limits } from '../judgement/assessment.ts';
import type { UnitSystem } from '../measure/units.ts';
import { atMostText, limitText, trendText } from './temperature.ts';
import { aboutText } from './time.ts';

export const interpassText = (interpass: Interpass, limits: Limits, units: UnitSystem): string => {
  const maximum = limits.interpassMaximum;
  switch (interpass.state) {
    case 'not judged':
      if (interpass.temperature !== undefined)
        return `Interpass cannot be judged, within the guard band: ${reading(interpass, limits, units)}.`;
      return maximum === undefined
        ? 'Interpass not judged: no maximum is stated.'
        : `Interpass not judged: no fresh reading at an interpass place (at most ${limitText(maximum, units)}). A contact reading beside the weld counts.`;
    case 'window':
      return `Interpass ${reading(interpass, limits, units)}: ${maximum === undefined ? 'no maximum is stated' : 'not too hot'}${trend(interpass, units)}.`;
    case 'too hot': {
      const wait = interpass.timeToWindow === undefined ? '' : `; wait ${aboutText(interpass.timeToWindow)}`;
      return `Interpass ${reading(interpass, limits, units)}: too hot${trend(interpass, units)}${wait}.`;
    }
  }
};

const reading = ({ probe, temperature, bound }: Interpass, { interpassMaximum }: Limits, units: UnitSystem): string => {
  if (temperature === undefined) return 'reading';
  const number = atMostText(temperature, interpassMaximum, units, bound);
  return probe === undefined ? number : `${number} at ${probe}`;
};

const trend = ({ trendPerMinute }: Interpass, units: UnitSystem): string =>
  trendPerMinute === undefined ? '' : `, ${trendText(trendPerMinute, units)}`;
