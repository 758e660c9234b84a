/** The required preheat in a few words. Its reason and working are in the answer itself (metallurgy/answer.ts). */
import { milliCelsius } from '../measure/quantity.ts';
import type { UnitSystem } from '../measure/units.ts';
import type { GoverningKind, MethodAnswer, Requirement } from '../metallurgy/answer.ts';
import { degrees, roundedUp } from '../metallurgy/number.ts';
import { limitText } from './temperature.ts';

/** "150 °C", "No preheat needed", or "Not known". */
export const minimumText = ({ governing, units }: Requirement): string => {
  if (governing.kind === 'no preheat needed') return 'No preheat needed';
  const { preheatMinimumCelsius: minimum } = governing;
  return minimum === undefined ? 'Not known' : limitText(milliCelsius(minimum), units);
};

/** What was computed and how it rounds up, where another value governs in its place; else nothing. */
export const computedText = ({ governing, units }: Requirement): string => {
  const { kind, computedCelsius: celsius } = governing;
  return celsius === undefined || (kind !== 'procedure' && kind !== 'code floor')
    ? ''
    : `Highest computed that may govern: ${degrees(celsius, units)}, rounded up ${degrees(roundedUp(celsius, units), units)}.`;
};

/** "143.7 °C as computed", "no preheat needed (4.9 °C as computed)", what it shows instead of a temperature, or "no number". */
export const methodResultText = (one: MethodAnswer, units: UnitSystem): string => {
  if (one.computedCelsius === undefined) return one.indication ?? 'no number';
  const origin = one.tabulated ? (one.status === 'entered' ? 'as entered' : 'out of the table') : 'as computed';
  const number = `${degrees(one.computedCelsius, units)} ${origin}`;
  return one.noPreheatNeeded ? `no preheat needed (${number})` : number;
};

/** It only compares and has nothing to compare with: its reason is enough, its working would be in the way. */
export const isSilent = ({ role, computedCelsius, indication }: MethodAnswer): boolean =>
  role === 'comparison only' && computedCelsius === undefined && indication === undefined;

/** What may govern first, then the floors of a code, then what only compares; what is silent comes after its like. */
export const inOrderOfStanding = (methods: readonly MethodAnswer[]): readonly MethodAnswer[] =>
  [...methods].sort((a, b) => rank(a) - rank(b));

const rank = ({ role, computedCelsius, indication }: MethodAnswer): number => {
  const standing = { 'may govern': 0, 'code minimum': 2, 'comparison only': 4 }[role];
  return computedCelsius === undefined && indication === undefined ? standing + 1 : standing;
};

/** What the governing value is: "by the procedure". */
export const governingText = (kind: GoverningKind): string => governings[kind];

/** By what it is governed, as a sentence, and why; while nothing governs, why not. */
export const governedText = ({ kind, because }: Requirement['governing']): string =>
  kind === 'none' ? because : `Governed ${governingText(kind)}. ${because}`;

const governings: Readonly<Record<GoverningKind, string>> = {
  procedure: 'by the procedure',
  'code floor': 'by the floor of the code',
  'binding calculation': 'by a calculation that the job makes binding',
  'highest method': 'by the highest method that applies',
  'no preheat needed': 'by every method that applies',
  none: 'nothing to go by yet',
};
