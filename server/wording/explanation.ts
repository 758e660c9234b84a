/** What stands beside a required preheat, in short lines: cooling, limits upward, after welding, what matters most. */
import type { UnitSystem } from '../measure/units.ts';
import { differenceToFahrenheit, toFahrenheit, toInches, toKilojoulesPerInch } from '../measure/units.ts';
import type { AfterWelding } from '../metallurgy/after-welding.ts';
import { citationText } from '../metallurgy/citation.ts';
import type { CoolingRow, HeatInputWindow } from '../metallurgy/cooling-table.ts';
import type { ResidualHydrogen } from '../metallurgy/hydrogen-diffusion.ts';
import type { MartensiteStart } from '../metallurgy/martensite-start.ts';
import { plain, steady } from '../metallurgy/number.ts';
import type { Span } from '../metallurgy/span.ts';
import { type InterpassSuggestion, rangeText } from '../metallurgy/upper-limits.ts';
import type { Sensitivity } from '../metallurgy/what-if.ts';
import { lengthText } from './length.ts';
import { listText } from './list.ts';

/** "7.2 to 9.7 s, three-dimensional, transition thickness 19.6 mm", or what is missing for it. */
export const coolingText = ({ found }: CoolingRow, units: UnitSystem): string => {
  if (found === undefined) return 'needs the heat input';
  const { seconds, transitionMillimetres: transition, flow } = found;
  const kept = found.window;
  const tenths = (millimetres: number): string => lengthText(Number(millimetres.toFixed(1)), units);
  const between = `${tenths(transition.lowest)}${transition.highest === transition.lowest ? '' : ` to ${tenths(transition.highest)}`}`;
  return `${spanText(seconds, 1)} s, ${flow === 'either' ? 'two- or three-dimensional' : flow} flow (transition thickness ${between})${kept === undefined ? '' : `, ${windowWords[kept]}`}`;
};

const windowWords = {
  inside: 'inside the window',
  'too fast': 'too fast for the window',
  'too slow': 'too slow for the window',
  'wider than the window': 'may leave the window: the shape factor is not known closely',
} as const;

/** "0.71 to 1.42 kJ/mm". */
export const heatInputWindowText = ({ minimum, maximum }: HeatInputWindow, units: UnitSystem): string =>
  minimum > maximum ? 'no heat input keeps the window' : inwards(minimum, maximum, units);

/** Rounded towards the middle, so that neither figure that is shown leaves the window. */
function inwards(minimum: number, maximum: number, units: UnitSystem): string {
  const shown = (value: number): number => (units === 'inch' ? toKilojoulesPerInch(value) : value);
  const scale = units === 'inch' ? 10 : 100;
  const low = Math.ceil(steady(shown(minimum) * scale)) / scale;
  const high = Math.floor(steady(shown(maximum) * scale)) / scale;
  const unit = units === 'inch' ? 'kJ/in' : 'kJ/mm';
  return low > high
    ? `only about ${plain(shown(minimum), 3)} ${unit} keeps the window`
    : `${plain(low)} ${unit} to ${plain(high)} ${unit}`;
}

/** "350 °C", or why there is no number. */
export const martensiteText = ({ celsius, missing, remark }: MartensiteStart, units: UnitSystem): string => {
  if (celsius !== undefined) return `${shownWhole(celsius, units)}${remark === '' ? '' : ` (${remark})`}`;
  return missing.length > 0 ? `needs ${listText(missing)}` : remark;
};

const shownWhole = (celsius: number, units: UnitSystem): string =>
  units === 'inch' ? `${Math.round(toFahrenheit(celsius))} °F` : `${Math.round(celsius)} °C`;

/** "315 °C for Cr-Mo: API RP 582 ...". */
export const interpassSuggestionText = (one: InterpassSuggestion, units: UnitSystem): string =>
  `${rangeText(one.celsius, units)} for ${one.material}: ${citationText(one)}`;

/** "24 to 66 % on the mean, 98 to 100 % at the middle". */
export const residualText = ({ mean, middle }: ResidualHydrogen): string =>
  `${percentText(mean)} of the hydrogen left on the mean, ${percentText(middle)} at the middle`;

/** The wait before testing in one sentence, or what it needs. */
export const waitingText = ({ waiting }: AfterWelding, units: UnitSystem): string => {
  switch (waiting.kind) {
    case 'not chosen':
      return 'No rule for the wait is chosen; choose the one that the contract names.';
    case 'asks':
      return `${waiting.edition} needs ${listText(waiting.missing)}.`;
    case 'silent':
      return `${waiting.edition}: ${waiting.because}.`;
    case 'waits': {
      const size = `weld size ${lengthText(waiting.sizeMillimetres, units)}, ${waiting.sizeFrom}`;
      const time = waiting.hours === 0 ? 'no wait beyond cooling down' : `at least ${plain(waiting.hours)} h`;
      return `${waiting.edition}: ${time} from the end of welding (${waiting.because}; ${size}).`;
    }
  }
};

/** "+10.2 K for each 1 ml/100 g more hydrogen"; of a table "+45 K for 10 mm more thickness, by its bands". */
export const sensitivityText = (
  { kelvin, per, unit, variable, side, stepwise }: Sensitivity,
  units: UnitSystem,
): string => {
  // What a table's next band brings cannot be scaled to a rounder step.
  const step = stepwise ? { words: exactStep(per, unit, units), times: 1 } : stepOf(per, unit, units);
  const amount = units === 'inch' ? differenceToFahrenheit(kelvin) * step.times : kelvin;
  const size = `${amount < 0 ? '\u2212' : '+'}${Math.abs(amount).toFixed(1)} ${units === 'inch' ? '°F' : 'K'}`;
  if (stepwise) return `${size} for ${step.words} more ${variable}, by the bands of its table`;
  const edge = side === 'both' ? '' : `, looking ${side} only, at the end of the range`;
  return `${size} for each ${step.words} more ${variable}${edge}`;
};

const exactStep = (per: number, unit: string, units: UnitSystem): string => {
  if (units === 'inch' && unit === 'mm') return `${toInches(per).toFixed(2)} in`;
  if (units === 'inch' && unit === 'kJ/mm') return `${toKilojoulesPerInch(per).toFixed(2)} kJ/in`;
  return `${plain(per)} ${unit}`;
};

/** In inches a step is as round as in millimetres, and the number goes with it. */
const stepOf = (per: number, unit: string, units: UnitSystem): { words: string; times: number } => {
  if (units === 'inch' && unit === 'mm') return { words: '0.5 in', times: 0.5 / toInches(per) };
  if (units === 'inch' && unit === 'kJ/mm') return { words: '5 kJ/in', times: 5 / toKilojoulesPerInch(per) };
  return { words: `${plain(per)} ${unit}`, times: 1 };
};

const spanText = ({ lowest, highest }: Span, decimals: number): string =>
  lowest.toFixed(decimals) === highest.toFixed(decimals)
    ? lowest.toFixed(decimals)
    : `${lowest.toFixed(decimals)} to ${highest.toFixed(decimals)}`;

const percentText = ({ lowest, highest }: Span): string => {
  const [low, high] = [Math.floor(lowest * 100), Math.ceil(highest * 100)];
  return low === high ? `${high} %` : `${low} to ${high} %`;
};
