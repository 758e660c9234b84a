/** Heat through the thickness in words: how a section stands, why it is not judged, and what lies ahead. */
import type { Assessment } from '../judgement/assessment.ts';
import type {
  BoundedCelsius,
  Outlook,
  SectionOutlook,
  SectionReason,
  SectionStatus,
  ThroughStatus,
} from '../judgement/inside/section-status.ts';
import type { Instant, Milliseconds } from '../measure/quantity.ts';
import type { UnitSystem } from '../measure/units.ts';
import type { FarSide } from '../weld/part.ts';
import { lengthText } from './length.ts';
import { listText } from './list.ts';
import { limitText, ofLimitText, temperatureText } from './temperature.ts';
import { durationText } from './time.ts';

/** "Through plate A: not warm through, coldest point at least 138 °C of 145 °C, likely 140 °C, at most 142 °C". No full stop. */
export const sectionText = (status: SectionStatus, assessment: Assessment): string => {
  const { part, coldest, state } = status;
  const why = notJudgedText(status, assessment);
  const point = coldest === undefined ? undefined : `coldest point ${coldestText(coldest, assessment)}`;
  if (why !== undefined)
    return `Through ${part} not judged: ${why}${point === undefined ? '' : `; as last computed ${point}`}`;
  if (point === undefined) return `Through ${part}: no reading yet`;
  const standing = { met: 'warm through, ', 'not met': 'not warm through, ', 'not judged': '' }[state];
  return `Through ${part}: ${standing}${point}`;
};

/** "at least 138 °C of 145 °C, likely 140 °C, at most 142 °C": the ends are rounded away from the likely value. */
export const coldestText = ({ low, likely, high }: BoundedCelsius, { limits, requirement }: Assessment): string => {
  const { units } = requirement;
  const limit = limits.preheatMinimum;
  if (low === high) return ofLimitText(low, limit, units);
  const most = temperatureText(high, units, { limit, rounded: 'up' });
  return `at least ${ofLimitText(low, limit, units, 'down')}, likely ${temperatureText(likely, units, { limit })}, at most ${most}`;
};

/** Why a section is not judged now and what mends it, its silent probes by name; undefined where it is judged. */
export const notJudgedText = (status: SectionStatus, { probes, requirement }: Assessment): string | undefined => {
  const { reason, frontProbes, backProbes } = status;
  if (reason === undefined) return undefined;
  const drivers = [...frontProbes, ...backProbes];
  const missing = probes.filter(({ probe, trusted }) => !trusted && drivers.includes(probe)).map(({ probe }) => probe);
  return reasonText(reason, { ...status, missing }, requirement.units);
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
      return `choose the thermal properties of ${part}: neither its kind of material nor Cr, Ni and Mo of its analysis tell them`;
    case 'no outside diameter':
      return `enter the outside diameter of ${part}`;
    case 'no probe on the heated face':
      return `place a zone probe on the heated face of ${part}, at least one thickness from the groove and from the edge of the heater`;
    case 'too near groove or heater edge':
      return tooNearText(part, facts.limit, units);
    case 'heated from both faces, one measured':
      return `heated from both faces: place a zone probe on each face of ${part}`;
    case 'far side takes heat that nobody can name':
      return `a colder mass or a fluid lies behind ${part}: place a probe on that face`;
    case 'thicker than is computed':
      return `${part} is thicker than is computed${facts.value === undefined ? '' : ` (${lengthText(facts.value, units)})`}: measure on the far face`;
    case 'shape not possible':
      return `check thickness and outside diameter of ${part}`;
    case 'no reading yet':
      return `no reading yet on the heated face of ${part}: check that its probes are connected`;
    case 'no trusted fresh reading':
      return `no trusted reading now${facts.missing.length === 0 ? '' : ` at ${listText(facts.missing)}`}: check contact and wire`;
    case 'within guard band':
      return `${part} inside lies within the guard band of the minimum: heat on until it lies beyond it`;
    case 'above the range of the properties':
      return `${part} is hotter than its thermal properties are known for: it is judged again once it is cooler`;
    case 'rises faster than steel':
      return `a probe on ${part} rises faster than any heater can heat steel: check whether it touches the heater`;
    case 'far face not as computed':
      return `the probe on the far face of ${part} does not agree with conduction from the heated face: check the contact of both, and what was entered for that side`;
  }
};

/** Where heat goes sideways nothing can be said of the depth below. */
const tooNearText = (part: string, thickness: number | undefined, units: UnitSystem): string => {
  const one = thickness === undefined ? 'one thickness' : `one thickness (${lengthText(thickness, units)})`;
  const two = thickness === undefined ? 'two thicknesses' : lengthText(2 * thickness, units);
  return `place a zone probe of ${part} at least ${one} from the groove and from the edge of the heater, which has to reach ${two}; nearer to them heat goes sideways`;
};

/** Name of a far side as it is chosen and shown. */
export const farSideText = (far: FarSide): string => (far === 'unknown' ? 'not known, counted as a draught' : far);

/** The hold through the thickness in a sentence. */
export const throughText = (through: ThroughStatus): string => asAsked(holdText(through), through);

/** The same once welding is over, when a part has to cool: what counts then is when it was warm. */
export const throughAfterText = (through: ThroughStatus, when: (at: Instant) => string): string => {
  const { firstDoneAt, voidedBy } = through;
  if (firstDoneAt === undefined || voidedBy !== 'below minimum') return throughText(through);
  return asAsked(`Warm through and held first at ${when(firstDoneAt)}; cooled since.`, through);
};

const asAsked = (text: string, { asked }: ThroughStatus): string =>
  `${text}${asked ? '' : ' The procedure does not ask for it.'}`;

const holdText = ({ state, done, required, voidedBy, pausedNear }: ThroughStatus): string => {
  const of = `${durationText(done)} of ${durationText(required)}`;
  switch (state) {
    case 'not judged':
      return 'Not judged.';
    case 'not begun':
      return 'Not warm through yet.';
    case 'running':
      return `Warm through, holding: ${of}.`;
    case 'paused':
      return pausedNear === true
        ? `The hold is stopped, a part lies within the guard band: ${of}.`
        : `Warm through; the hold is stopped by missing readings: ${of}.`;
    case 'done':
      return required === 0 ? 'Warm through.' : `Warm through and held: ${durationText(required)}.`;
    case 'voided': {
      const lost = required === 0 ? 'No longer warm through' : 'Hold through the thickness lost';
      if (voidedBy === 'guard band') return `${lost}: a part lay within the guard band for more than 60 s.`;
      return voidedBy === 'gap'
        ? `${lost}: readings were missing for more than 60 s.`
        : `${lost}: a part fell below the minimum inside.`;
    }
  }
};

/** "warm through in 12 to 19 min", "never at this surface temperature: needs 171 °C, or insulate the far face". */
export const outlookText = (outlook: SectionOutlook, units: UnitSystem): string => {
  const { ready, reaches, course, upTo } = outlook;
  const latest = ready?.latest;
  const best = ready?.earliest;
  if (reaches === 'always') {
    if (latest === 0) return 'warm through';
    return latest === undefined
      ? 'takes longer than is looked ahead'
      : `warm through in ${betweenText(best ?? latest, latest)}`;
  }
  if (course === 'heat off')
    return reaches === 'never'
      ? 'not with the heat off: the heat in the part is not enough; heat again'
      : 'hardly with the heat off: at worst the heat in the part is not enough';
  // A face that still rises is not yet at the temperature that is spoken of.
  const never =
    upTo === undefined
      ? 'never at this surface temperature'
      : `never with the heated face at ${limitText(upTo, units)}`;
  const begin = reaches === 'never' || best === undefined ? never : `at best in ${leastText(best)}; at worst ${never}`;
  return `${begin}${needsText(outlook, units)}`;
};

/** "above 120 °C for 14 to 50 min with the heat off, ...": until the coldest point is below the maintenance temperature. */
export const coolingText = ({ coolsBelow }: SectionOutlook, units: UnitSystem): string | undefined => {
  if (coolsBelow === undefined) return undefined;
  const { earliest, latest, limit } = coolsBelow;
  const to = limitText(limit, units);
  if (earliest === 0) return `below ${to} already`;
  if (earliest === undefined) return `above ${to} for longer than is looked ahead`;
  const time = latest === undefined ? `at least ${leastText(earliest)}` : betweenText(earliest, latest);
  return `above ${to} for ${time} with the heat off, if the whole part cools; a part heated in one place cools sooner`;
};

/** "As zone A falls now, it is at 120 °C in about 14 min": a part heated in one place, as it is measured. */
export const fallText = ({ probe, limit, time }: NonNullable<Outlook['breakByTrend']>, units: UnitSystem): string =>
  `As ${probe} falls now, it is at ${limitText(limit, units)} in ${leastText(time)}`;

/** "12 to 19 min", "about 12 min", "at most 1 min": whole minutes, so rounded that the range does not narrow. */
export const betweenText = (earliest: Milliseconds, latest: Milliseconds): string => {
  const from = Math.floor(earliest / 60_000);
  const to = Math.ceil(latest / 60_000);
  if (from === to) return `about ${span(to)}`;
  if (from === 0) return `at most ${span(to)}`;
  return to < 60 ? `${from} to ${to} min` : `${span(from)} to ${span(to)}`;
};

const needsText = ({ surfaceNeeded, insulatedHelps }: SectionOutlook, units: UnitSystem): string => {
  const needs =
    surfaceNeeded === undefined ? [] : [`needs ${temperatureText(surfaceNeeded, units, { rounded: 'up' })}`];
  const ways = [...needs, ...(insulatedHelps === true ? ['insulate the far face'] : [])];
  return ways.length === 0 ? '' : `: ${ways.join(', or ')}`;
};

/** Rounded down: an earliest time must not seem later. */
const leastText = (time: Milliseconds): string => (time < 60_000 ? 'under 1 min' : span(Math.floor(time / 60_000)));

const span = (minutes: number): string =>
  minutes < 60 ? `${minutes} min` : `${Math.floor(minutes / 60)} h${minutes % 60 === 0 ? '' : ` ${minutes % 60} min`}`;
