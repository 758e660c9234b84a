/** Heat through the thickness in words: how a section stands, why it is not judged, which soak rule came last, and what lies ahead. */
import type { Assessment } from '../judgement/assessment.ts';
import type { SectionOutlook, SectionReason, SectionStatus, ThroughStatus } from '../judgement/section-status.ts';
import type { MilliCelsius, Milliseconds } from '../measure/quantity.ts';
import { toFahrenheit, type UnitSystem } from '../measure/units.ts';
import type { FarSide } from '../weld/part.ts';
import { lengthText } from './length.ts';
import { listText } from './list.ts';
import { degreeUnit, limitText, ofLimitText, temperatureText } from './temperature.ts';
import { durationText } from './time.ts';

/** "Through plate A: coldest point 138 °C of 145 °C, at most 141 °C". No full stop. */
export const sectionText = (status: SectionStatus, { limits, requirement }: Assessment): string => {
  const { units } = requirement;
  const { part, coldest, reason } = status;
  if (reason !== undefined)
    return `Through ${part} not judged: ${reasonText(reason, { ...status, missing: [] }, units)}`;
  if (coldest === undefined) return `Through ${part}: no reading yet`;
  const limit = limits.preheatMinimum;
  const { low, high } = coldest;
  const least = ofLimitText(low, limit, units);
  return `Through ${part}: coldest point at least ${least}, at most ${temperatureText(high, units, { limit })}`;
};

interface ReasonFacts {
  readonly part?: string | undefined;
  readonly value?: number | undefined;
  readonly limit?: number | undefined;
  readonly missing: readonly string[];
}

/** What stands in the way and what mends it, to follow a colon. */
export const reasonText = (reason: SectionReason, facts: ReasonFacts, units: UnitSystem): string => {
  const part = facts.part ?? 'the part';
  switch (reason) {
    case 'no heated width':
      return 'enter how far the heater reaches from the edge of the groove';
    case 'no air temperature':
      return 'enter the lowest air temperature, or place an ambient probe';
    case 'steel not known':
      return `enter the thermal properties of ${part} or its kind of material; the analysis does not tell Cr, Ni and Mo`;
    case 'no outside diameter':
      return `enter the outside diameter of ${part}`;
    case 'no probe on the heated face':
      return `no zone probe on the heated face of ${part}: place one at least one thickness from the groove`;
    case 'too near groove or heater edge':
      return `every zone probe of ${part} is less than one thickness${facts.limit === undefined ? '' : `, ${lengthText(facts.limit, units)},`} from the groove or from the edge of the heater: heat goes sideways there`;
    case 'heated from both faces, one measured':
      return `heated from both faces: measure on each face of ${part}`;
    case 'far side takes heat that nobody can name':
      return `a colder mass or a fluid lies behind ${part}: place a probe on that face`;
    case 'thicker than is computed':
      return `${part} is thicker than is computed: measure on the far face`;
    case 'shape not possible':
      return `check thickness and outside diameter of ${part}`;
    case 'no reading yet':
      return 'no reading yet';
    case 'no trusted fresh reading':
      return facts.missing.length === 0
        ? 'no trusted reading now'
        : `no trusted reading now at ${listText(facts.missing)}`;
    case 'above the range of the properties':
      return 'hotter than the thermal properties of the steel are known for';
    case 'rises faster than steel':
      return `a probe on ${part} rises faster than any heater can heat steel: does it touch the heater?`;
    case 'far face not as computed':
      return `the probe on the far face of ${part} does not agree with conduction from the heated face: look at its contact, and at what was entered for that side`;
  }
};

/** Name of a far side as it is chosen and shown. */
export const farSideText = (far: FarSide): string => (far === 'unknown' ? 'not known, counted as a draught' : far);

/** The hold through the thickness in a sentence. */
export const throughText = (through: ThroughStatus): string => {
  const of = `${durationText(through.done)} of ${durationText(through.required)}`;
  const asked = through.asked ? '' : ' The procedure does not ask for it.';
  switch (through.state) {
    case 'not judged':
      return `Through the thickness not judged.${asked}`;
    case 'not begun':
      return `Not warm through yet.${asked}`;
    case 'running':
      return `Warm through, holding: ${of}.${asked}`;
    case 'paused':
      return `Warm through; the hold is paused by missing readings: ${of}.${asked}`;
    case 'done':
      return through.required === 0 ? `Warm through.${asked}` : `Warm through and held: ${of}.${asked}`;
    case 'voided':
      return through.voidedBy === 'gap'
        ? `Hold through the thickness lost: readings were missing for more than 60 s.${asked}`
        : `Hold through the thickness lost: a part fell below the minimum inside.${asked}`;
  }
};

/**
 * Where a time by rule and the computed core both count: which of the two comes last, by how much, and why. Undefined
 * where only one of them applies or neither has come far enough to tell.
 */
export const governingSoakText = (assessment: Assessment): string | undefined => {
  const { soak, throughThickness: through, sections } = assessment;
  if (!through.asked || (soak.rule !== 'wait' && soak.rule !== 'hold')) return undefined;
  const rule = soak.rule === 'wait' ? 'the wait of 2 min per 25 mm' : 'the hold by time';
  const thickest = Math.max(...sections.map((each) => each.depthMillimetres));
  const steel = `${lengthText(thickest, assessment.requirement.units)} of steel`;
  if (soak.doneAt !== undefined && through.doneAt !== undefined) {
    const apart = (through.doneAt - soak.doneAt) as Milliseconds;
    if (apart > 0)
      return `The core governed: warm through and held ${durationText(apart)} after ${rule} had ended. Heat takes a time that goes with the square of the thickness; a time per millimetre does not see that, nor what the far face loses.`;
    return `${sentence(rule)} governed: it ended ${durationText(-apart as Milliseconds)} after the core was warm and held; ${steel} even out sooner than it allows.`;
  }
  if (soak.state === 'done')
    return `The core governs: ${rule} has ended, but heat is not through ${steel} yet. It takes a time that goes with the square of the thickness, and the far face loses on the way.`;
  if (through.state === 'done') return `${sentence(rule)} governs: the core is warm and held, but it has not ended.`;
  return undefined;
};

/** "ready in 12 to 19 min", "never at this surface temperature: needs 171 °C, or insulate the far face". */
export const outlookText = (outlook: SectionOutlook, units: UnitSystem): string => {
  const { ready, reaches, course } = outlook;
  const latest = ready?.latest;
  if (reaches === 'always' && latest !== undefined)
    return latest === 0 ? 'warm through' : `warm through in ${betweenText(ready?.earliest ?? latest, latest)}`;
  if (course === 'heat off')
    return reaches === 'never'
      ? 'not with the heat off: what is stored does not reach the minimum; heat again'
      : 'hardly with the heat off: at worst what is stored does not reach the minimum';
  const best = ready?.earliest;
  const begin =
    reaches === 'never' || best === undefined
      ? 'never at this surface temperature'
      : `in ${aboutMinutes(best)} at best; at worst never at this surface temperature`;
  return `${begin}${needsText(outlook, units)}`;
};

/** "a break may last 14 to 50 min": until the coldest point is below the maintenance temperature. */
export const coolingText = ({ coolsBelow }: SectionOutlook, units: UnitSystem): string | undefined => {
  if (coolsBelow === undefined) return undefined;
  const { earliest, latest, limit } = coolsBelow;
  const to = limitText(limit, units);
  if (earliest === 0) return `below ${to} already`;
  if (earliest === undefined) return `above ${to} for longer than is looked ahead`;
  const time = latest === undefined ? `at least ${aboutMinutes(earliest)}` : betweenText(earliest, latest);
  return `above ${to} for ${time} with the heat off, if the whole part cools; a part heated in one place cools sooner`;
};

/** "12 to 19 min", "about 12 min", "under 1 min": rounded so that the range does not narrow. */
export const betweenText = (earliest: Milliseconds, latest: Milliseconds): string => {
  const from = Math.floor(earliest / 60_000);
  const to = Math.ceil(latest / 60_000);
  if (to <= 1) return 'about 1 min';
  if (from === to) return `about ${span(to)}`;
  if (to < 60) return `${from} to ${to} min`;
  return `${span(from)} to ${span(to)}`;
};

const needsText = ({ surfaceNeeded, insulatedHelps, reaches }: SectionOutlook, units: UnitSystem): string => {
  const needs = surfaceNeeded === undefined ? undefined : `needs ${upToDegree(surfaceNeeded, units)}`;
  const insulate = insulatedHelps === true && reaches !== 'always' ? 'insulate the far face' : undefined;
  const what = [needs, insulate].filter((each) => each !== undefined).join(', or ');
  return what === '' ? '' : `: ${what}`;
};

/** Rounded up: what is asked for must be enough. */
const upToDegree = (value: MilliCelsius, units: UnitSystem): string =>
  units === 'inch'
    ? `${Math.ceil(toFahrenheit(value / 1000))} ${degreeUnit(units)}`
    : temperatureText((Math.ceil(value / 1000) * 1000) as MilliCelsius, units);

const aboutMinutes = (time: Milliseconds): string => span(Math.max(1, Math.round(time / 60_000)));

const span = (minutes: number): string =>
  minutes < 60 ? `${minutes} min` : `${Math.floor(minutes / 60)} h${minutes % 60 === 0 ? '' : ` ${minutes % 60} min`}`;

const sentence = (phrase: string): string => phrase.charAt(0).toUpperCase() + phrase.slice(1);
