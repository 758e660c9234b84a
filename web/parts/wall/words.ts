/** What is said beside the picture of one part: how it stands, where it is coldest, what lies ahead. */
import type { SectionOutlook, SectionReason, SectionStatus } from '../../../server/judgement/inside/section-status.ts';
import type { MilliCelsius } from '../../../server/measure/quantity.ts';
import type { UnitSystem } from '../../../server/measure/units.ts';
import { lengthText } from '../../../server/wording/length.ts';
import { begun, listText } from '../../../server/wording/list.ts';
import { betweenText, coolingText, farSideText, outlookText, reasonText } from '../../../server/wording/section.ts';
import { limitText, ofLimitText, temperatureText } from '../../../server/wording/temperature.ts';

/** "Not warm through" beside "coldest 121 °C of 150 °C at worst, 128 °C likely, at the far face". `missing`: its probes that cannot be believed now. */
export const standingText = (
  section: SectionStatus,
  missing: readonly string[],
  minimum: MilliCelsius | undefined,
  units: UnitSystem,
): { readonly word: string; readonly because: string } => {
  const { state, reason, coldest } = section;
  if (state === 'not judged') {
    return { word: 'Not judged', because: reasonText(reason ?? 'no reading yet', { ...section, missing }, units) };
  }
  const word = state === 'met' ? 'Warm through' : 'Not warm through';
  if (coldest === undefined) return { word, because: '' };
  const least = ofLimitText(coldest.low, minimum, units);
  const place = coldestPlace(section, units);
  const [low, likely] = [coldest.low, coldest.likely].map((each) => temperatureText(each, units, { limit: minimum }));
  if (low === likely) return { word, because: `coldest ${least}, ${place}` };
  return { word, because: `coldest ${least} at worst, ${likely} likely, ${place}` };
};

/** Where the worst case is coldest: "at the far face", "at the heated face", "28 mm deep". */
const coldestPlace = ({ profile, depthMillimetres }: SectionStatus, units: UnitSystem): string => {
  if (profile === undefined) return 'inside';
  const at = profile.low.indexOf(Math.min(...profile.low) as MilliCelsius);
  const last = profile.low.length - 1;
  if (at === last) return 'at the far face';
  if (at === 0) return 'at the heated face';
  return `${lengthText(Math.round((at / last) * depthMillimetres), units)} deep`;
};

/**
 * "Warm through in 12 to 19 min with the heated face held". A part that is warm through already has only the hold
 * before it; undefined once that is over too.
 */
export const aheadText = (
  { state }: Pick<SectionStatus, 'state'>,
  outlook: SectionOutlook | undefined,
  units: UnitSystem,
): string | undefined => {
  if (outlook === undefined) return undefined;
  const { course, upTo, ready, reaches } = outlook;
  const latest = ready?.latest;
  if (latest === 0) return undefined;
  const courses = {
    held: 'with the heated face held',
    rising: `with the heated face rising on${upTo === undefined ? '' : ` to ${limitText(upTo, units)}`}`,
    'heat off': 'with the heat off',
  };
  if (state === 'met' && reaches === 'always' && latest !== undefined)
    return `Held long enough in ${betweenText(ready?.earliest ?? latest, latest)} ${courses[course]}`;
  const what = begun(outlookText(outlook, units));
  // Where it does not come, the words say already with what it does not.
  return reaches === 'always' ? `${what} ${courses[course]}` : what;
};

/** How long a break may last, once there is something to lose. */
export const breakText = (outlook: SectionOutlook | undefined, units: UnitSystem): string | undefined => {
  if (outlook?.coolsBelow === undefined || outlook.coolsBelow.earliest === 0) return undefined;
  const text = coolingText(outlook, units);
  return text === undefined ? undefined : begun(text);
};

/** Missing in the joint: a correction mends it. */
export const isLackOfJoint = ({ reason }: SectionStatus): boolean => reason !== undefined && lacksOfJoint.has(reason);

const lacksOfJoint: ReadonlySet<string> = new Set<SectionReason>([
  'no heated width',
  'no air temperature',
  'steel not known',
  'no outside diameter',
  'no probe on the heated face',
  'too near groove or heater edge',
  'shape not possible',
]);

/** Names of the two faces, each with what is known of it. */
export const faceTexts = (
  { front, frontProbes, backProbes, farMeasured, farSide }: SectionStatus,
  isBar: boolean,
): { readonly heated: string; readonly far: readonly [name: string, about: string] } => ({
  heated: isBar ? 'outside' : frontProbes.length === 0 ? `${front} face` : `heated ${front} face`,
  far: isBar
    ? ['axis', 'no loss there']
    : [
        `far ${front === 'front' ? 'back' : 'front'} face`,
        farMeasured ? `measured by ${listText(backProbes)}` : farSideText(farSide),
      ],
});
