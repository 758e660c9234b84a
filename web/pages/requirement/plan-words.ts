/** What a planned heating comes to, in words: when it is warm through, where it is when the surface arrives, what power that takes. */
import type { PowerBand, WarmingPlan } from '../../../server/conduction/plan.ts';
import { type MilliCelsius, milliCelsius } from '../../../server/measure/quantity.ts';
import type { UnitSystem } from '../../../server/measure/units.ts';
import { plain } from '../../../server/metallurgy/number.ts';
import { begun } from '../../../server/wording/list.ts';
import { outlookText } from '../../../server/wording/section.ts';
import { boundedText, limitText } from '../../../server/wording/temperature.ts';
import { durationText } from '../../../server/wording/time.ts';

/** "Warm through in 96 to 125 min from the start of heating", or that it never is, and what it needs. */
export const warmText = (
  { ready }: WarmingPlan,
  part: string,
  setPointCelsius: number,
  holdMinutes: number,
  units: UnitSystem,
): string => {
  const { earliest, likely, latest, ...rest } = ready;
  const times = {
    ...(earliest === undefined ? {} : { earliest }),
    ...(likely === undefined ? {} : { likely }),
    ...(latest === undefined ? {} : { latest }),
  };
  const text = begun(
    outlookText({ part, course: 'rising', upTo: milliCelsius(setPointCelsius), ready: times, ...rest }, units),
  );
  if (ready.reaches !== 'always') return text;
  const hold = holdMinutes === 0 ? '' : `, ${plain(holdMinutes, 1)} min of hold included`;
  return `${text} from the start of heating${hold}`;
};

/** "The surface is at 155 °C after 1 h 21 min; the coldest point is then at 118 to 136 °C". */
export const arrivalText = (
  { rampEnds, coldestThen }: WarmingPlan,
  setPointCelsius: number,
  minimum: MilliCelsius,
  units: UnitSystem,
): string =>
  `The surface is at ${limitText(milliCelsius(setPointCelsius), units)} after ${durationText(rampEnds)}; the coldest point is then at ${boundedText(coldestThen, units, { limit: minimum })}`;

/** "Into the steel 17 to 19 kW/m² while it rises, 24 at most; 1 to 4 kW/m² to hold". */
export const powerText = ({ ramping, holding }: WarmingPlan, units: UnitSystem): string => {
  const unit = units === 'inch' ? 'W/in²' : 'kW/m²';
  const band = ({ low, high }: PowerBand): string => {
    const [least, most] = [figure(low, units), figure(high, units)];
    return `${least === most ? least : `${least} to ${most}`} ${unit}`;
  };
  return `Into the steel ${band(ramping.mean)} while it rises, ${figure(ramping.peak.high, units)} ${unit} at most; ${band(holding.mean)} to hold`;
};

/** Two figures: more would say more than is known. 1 W/m2 is 0.00064516 W/in2, by the inch. */
const figure = (wattsPerSquareMetre: number, units: UnitSystem): string => {
  const value = units === 'inch' ? wattsPerSquareMetre * 0.00064516 : wattsPerSquareMetre / 1000;
  return plain(Number(value.toPrecision(2)), 2);
};
