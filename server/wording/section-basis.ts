/** What the heat through a part was computed from, and what of it is not known: shape, probes, steel, far side, start, gap, loss. */
import type { SectionStatus } from '../judgement/inside/section-status.ts';
import type { Millikelvin } from '../measure/quantity.ts';
import type { UnitSystem } from '../measure/units.ts';
import { plain } from '../metallurgy/number.ts';
import type { FarSide, Part } from '../weld/part.ts';
import { lengthText } from './length.ts';
import { listText } from './list.ts';
import { boundedText, differenceText, rateText, temperatureText } from './temperature.ts';

type Of<Key extends keyof SectionStatus> = Required<Pick<SectionStatus, Key>>[Key];

/** Names of the place where the section begins, of its middle and of where it ends. */
export const depthNames = (form: Part['form']): readonly [front: string, middle: string, back: string] =>
  form === 'bar' ? ['outside', 'half-way in', 'axis'] : ['heated face', 'middle', 'far face'];

/** "plate, 80 mm from the heated front face to the back face". */
export const shapeText = (
  { form, outsideDiameterMillimetres: diameter }: Pick<Part, 'form' | 'outsideDiameterMillimetres'>,
  { depthMillimetres, front }: SectionStatus,
  units: UnitSystem,
): string => {
  const depth = lengthText(depthMillimetres, units);
  if (form === 'bar') return `solid bar, ${depth} from the outside to the axis`;
  const faces = `${depth} from the heated ${front} face to the ${front === 'front' ? 'back' : 'front'} face`;
  return form === 'tube' && diameter !== undefined
    ? `tube of ${lengthText(diameter, units)} outside diameter, ${faces}`
    : `plate, ${faces}`;
};

/** "zone A on the heated face; far A on the far face": of several on a face the coldest counts. */
export const driversText = ({ frontProbes, backProbes }: SectionStatus): string => {
  const of = (probes: readonly string[], where: string): string[] =>
    probes.length === 0 ? [] : [`${listText(probes)} ${where}${probes.length > 1 ? ', the coldest of them' : ''}`];
  const all = [...of(frontProbes, 'on the heated face'), ...of(backProbes, 'on the far face')];
  return all.length === 0 ? 'none that can' : all.join('; ');
};

/** "carbon steel, by the analysis; diffusivity up to 20 % either way between grades; EN 1993-1-2:2005 (verified)". */
export const steelText = ({ name, source, status, band, by }: Of<'steel'>): string =>
  `${name}, ${chosenBy[by]}; diffusivity up to ${plain(band * 100, 0)} % either way between grades; ${source} (${status})`;

const chosenBy = {
  entered: 'as entered',
  'kind of material': 'by the kind of material',
  analysis: 'by the analysis',
} as const;

/** What counts for the side that is not heated. */
export const farFaceText = ({ farMeasured, backProbes, farSide }: SectionStatus): string =>
  farMeasured ? `measured by ${listText(backProbes)}: no loss is assumed` : lossOf[farSide];

const leastToMost = 'from the least to the most that it can lose there';
const lossOf: Readonly<Record<FarSide, string>> = {
  insulated: `insulated: ${leastToMost}`,
  'still air': `still air: ${leastToMost}`,
  draught: `draught: ${leastToMost}`,
  unknown: 'not known: anything from no loss to the most that a draught takes',
  'colder mass or fluid': 'a colder mass or a fluid: what it takes cannot be named',
};

/** "followed along the plate from the edge of the heater; it takes 0.3 K/min now". */
export const sidewaysText = (perMinute: Millikelvin, units: UnitSystem): string =>
  `followed along the part, past the edge of the heater; it takes ${rateText(perMinute, units)} now`;

/** What is left of not having known the inside at the start. */
export const startText = ({ part, atMost }: Of<'startLeft'>, units: UnitSystem): string =>
  `not known inside; ${differenceText(atMost, units, { rounded: 'up' })} at most are left of that${part < 0.01 ? '' : ` (${plain(part * 100, 0)} %)`}`;

/** "14 ± 3 W/(m² K), found from the probes on both faces". */
export const lossText = ({ coefficient, uncertainty }: Of<'lossFound'>, units: UnitSystem): string => {
  const [scale, unit, digits] = units === 'inch' ? [perBtu, 'Btu/(h ft² °F)', 1] : [1, 'W/(m² K)', 0];
  const most = Math.ceil(uncertainty * scale * 10 ** digits) / 10 ** digits;
  return `${plain(coefficient * scale, digits)} ± ${plain(most, digits)} ${unit}, found from the probes on both faces`;
};

/** 1 W/(m2 K) in Btu/(h ft2 F), by the international table Btu: 1 / 5.678263. */
const perBtu = 1 / 5.678263;

/** The far probe reads what conduction from the heated face does not allow. */
export const doubtText = ({ measured, low, high }: Omit<Of<'doubted'>, 'since'>, units: UnitSystem): string =>
  `the probe on the far face reads ${temperatureText(measured, units)}; by conduction from the heated face it would be ${boundedText({ low, high }, units, { limit: measured })}. Check the contact of both, and what was entered for that side`;
