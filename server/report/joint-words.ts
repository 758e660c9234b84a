/** The joint's own facts as short text. What was not stated is said to be not stated. */
import type { Joint, Part } from '../weld/joint.ts';

export const hydrogenText = ({ consumable }: Joint): string => {
  const { hydrogen } = consumable;
  if (hydrogen === 'not stated') return 'not stated';
  return 'class' in hydrogen
    ? `class ${hydrogen.class}`
    : `${plain(hydrogen.millilitresPer100Grams)} ml per 100 g of deposited metal`;
};

export const heatInputText = ({ heatInput }: Joint): string => {
  if (heatInput === 'not stated') return 'not stated';
  if ('kilojoulesPerMillimetre' in heatInput) return `${plain(heatInput.kilojoulesPerMillimetre)} kJ/mm`;
  if ('instantaneousJoules' in heatInput)
    return `from instantaneous energy ${plain(heatInput.instantaneousJoules)} J over ${plain(heatInput.beadMillimetres)} mm`;
  if ('instantaneousWatts' in heatInput)
    return `from instantaneous power ${plain(heatInput.instantaneousWatts)} W at ${plain(heatInput.millimetresPerSecond)} mm/s`;
  const { volts, amperes, millimetresPerSecond } = heatInput;
  return `from ${plain(volts)} V, ${plain(amperes)} A, ${plain(millimetresPerSecond)} mm/s`;
};

export const heatingText = ({ heating }: Joint): string =>
  `${heating.means}, on ${heating.face === 'both' ? 'both faces' : `the ${heating.face} face`}, ${heating.whileWelding} while welding`;

export const partText = (part: Part): string => {
  const side = part.side === 'both' ? 'both sides' : `side ${part.side}`;
  const papers = [...new Set(part.analyses.map(({ heat, certificate }) => paperText(heat, certificate)))].filter(
    (text) => text !== '',
  );
  return [`${part.id}: ${side}`, part.grade, `${plain(part.thicknessMillimetres)} mm`, ...papers]
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
