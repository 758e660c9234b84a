/** The joint's own facts as short text. What was not stated is said to be not stated. */
import { type UnitSystem, unitsOf } from '../measure/units.ts';
import type { Joint } from '../weld/joint.ts';
import type { Part } from '../weld/part.ts';
import { heatInputFigureText, lengthText, travelText } from '../wording/length.ts';

export const hydrogenText = ({ consumable }: Joint): string => {
  const { hydrogen } = consumable;
  if (hydrogen === 'not stated') return 'not stated';
  return 'class' in hydrogen
    ? `class ${hydrogen.class}`
    : `${plain(hydrogen.millilitresPer100Grams)} ml per 100 g of deposited metal`;
};

export const heatInputText = ({ heatInput, units: stated }: Joint): string => {
  const units = unitsOf({ units: stated });
  if (heatInput === 'not stated') return 'not stated';
  if ('kilojoulesPerMillimetre' in heatInput) return heatInputFigureText(heatInput.kilojoulesPerMillimetre, units);
  if ('instantaneousJoules' in heatInput)
    return `from instantaneous energy ${plain(heatInput.instantaneousJoules)} J over ${lengthText(heatInput.beadMillimetres, units)}`;
  if ('instantaneousWatts' in heatInput)
    return `from instantaneous power ${plain(heatInput.instantaneousWatts)} W at ${travelText(heatInput.millimetresPerSecond, units)}`;
  const { volts, amperes, millimetresPerSecond } = heatInput;
  return `from ${plain(volts)} V, ${plain(amperes)} A, ${travelText(millimetresPerSecond, units)}`;
};

export const heatingText = ({ heating }: Joint): string =>
  `${heating.means}, on ${heating.face === 'both' ? 'both faces' : `the ${heating.face} face`}, ${heating.whileWelding} while welding`;

/** What lies behind each part, on the side that is not heated. */
export const behindText = ({ parts }: Joint): string =>
  parts.map(({ id, farSide = 'unknown' }) => `${id}: ${farSide === 'unknown' ? 'not stated' : farSide}`).join('; ');

export const partText = (part: Part, units: UnitSystem): string => {
  const side = part.side === 'both' ? 'both sides' : `side ${part.side}`;
  const papers = [...new Set(part.analyses.map(({ heat, certificate }) => paperText(heat, certificate)))].filter(
    (text) => text !== '',
  );
  return [`${part.id}: ${side}`, part.grade, lengthText(part.thicknessMillimetres, units), ...papers]
    .filter((text) => text !== undefined)
    .join(', ');
};

const paperText = (heat: string | undefined, certificate: string | undefined): string =>
  [heat === undefined ? '' : `heat ${heat}`, certificate === undefined ? '' : `certificate ${certificate}`]
    .filter((text) => text !== '')
    .join(', ');

/** A decimal number for people: at most six digits that count, a true minus sign, never an exponent for what a shop meets. */
export const plain = (value: number): string => {
  const rounded = Number(value.toPrecision(6));
  return `${rounded < 0 ? '\u2212' : ''}${Math.abs(rounded)}`;
};
