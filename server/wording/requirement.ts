/** The required preheat in a few words. Its reason and working are in the answer itself (metallurgy/answer.ts). */
import { milliCelsius } from '../measure/quantity.ts';
import type { GoverningKind, Requirement } from '../metallurgy/answer.ts';
import { limitText } from './temperature.ts';

/** "150 °C", "No preheat needed", or "Not known". */
export const minimumText = ({ governing, units }: Requirement): string => {
  if (governing.kind === 'no preheat needed') return 'No preheat needed';
  const { preheatMinimumCelsius: minimum } = governing;
  return minimum === undefined ? 'Not known' : limitText(milliCelsius(minimum), units);
};

/** What the governing value is: "by the procedure". */
export const governingText = (kind: GoverningKind): string => governings[kind];

const governings: Readonly<Record<GoverningKind, string>> = {
  procedure: 'by the procedure',
  'code floor': 'by the floor of the code',
  'binding calculation': 'by a calculation that the job makes binding',
  'highest method': 'by the highest method that applies',
  'no preheat needed': 'by every method that applies',
  none: 'nothing to go by yet',
};
