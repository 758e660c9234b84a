/**
 * One condition of readiness in words, with its number and, where it can be known, the time to go. The
 * words say what is and, where it is not met, what would meet it.
 */
import type { Assessment } from '../judgement/assessment.ts';
import type { Condition } from '../judgement/condition.ts';
import type { SectionReason } from '../judgement/inside/section-status.ts';
import type { MilliCelsius, Millikelvin, Milliseconds } from '../measure/quantity.ts';
import type { UnitSystem } from '../measure/units.ts';
import { afterBreakText, isAfterBreakReason } from './break.ts';
import { lengthText } from './length.ts';
import { begun, listText } from './list.ts';
import { reasonText } from './section.ts';
import {
  atMostText,
  differenceLimitText,
  differenceText,
  limitText,
  ofLimitText,
  temperatureText,
} from './temperature.ts';
import { aboutText, durationText } from './time.ts';
import { placeShort } from './words.ts';

/** A phrase without a full stop, in sentence case: "Opposite face 128 °C of 150 °C at T4, about 14 min". */
export const conditionText = (condition: Condition, assessment: Assessment): string => {
  const { reason, missing = [] } = condition;
  if (isAfterBreakReason(reason)) return afterBreakText(reason, condition, unitsOf(assessment));
  switch (reason) {
    case 'ok':
      return metText(condition, assessment);
    case 'below minimum':
      if (condition.id === 'through thickness') return coreBelowText(condition, assessment);
      return condition.id === 'soak'
        ? soakBelowText(assessment)
        : `${begun(belowText(condition, assessment))}${toGo(condition)}`;
    case 'no trusted fresh reading':
      if (condition.id === 'through thickness') return throughNotJudged(reason, condition, assessment);
      return missing.length === 0 ? noReadingText(condition) : `No trusted reading now at ${listText(missing)}`;
    case 'no minimum stated':
      return 'Minimum preheat not known: bind the procedure, or complete the analysis so that a method can be computed';
    case 'no zone probe':
      return 'No zone probe: the minimum cannot be judged without one';
    case 'side without zone probe at 75 mm':
      return `No zone probe at ${lengthText(75, unitsOf(assessment))} or more from the groove on side ${listText(missing)}`;
    case 'heat is on':
      return `Heat is on: the wait begins when it is off${waitOf(condition)}`;
    case 'waiting after heat off':
      return `Evening out with the heat off: ${doneOf(condition)}${toGo(condition)}`;
    case 'holding':
      return `${condition.id === 'through thickness' ? 'Warm through, holding' : 'Holding'}: ${doneOf(condition)}${toGo(condition)}`;
    case 'no hold stated':
      return 'Soak not judged: the heaters stay on and the procedure states no hold';
    case 'face still rising':
      return 'Entered as heat off, but the heated face still rises: turn the heat off and enter it again';
    case 'heat state not entered':
      return 'Enter heat on and heat off: the wait counts from there';
    case 'spread too large':
      return `Uneven: zone probes of one face ${spreadText(condition, assessment)}`;
    case 'no limit stated':
      return noLimitText(condition, assessment);
    case 'too hot':
      return `Too hot: ${condition.id === 'interpass maximum' ? 'interpass ' : ''}${hotText(condition, assessment)}${toGo(condition)}`;
    case 'only an untrusted probe is above it':
      return hiddenText(condition, assessment);
    case 'no interpass place':
      return 'Interpass not judged: no probe measures it, so take a contact reading beside the weld just before the arc';
    case 'named answer missing':
      return `Needs an answer by a named person: ${listText(missing.map(answerText))}`;
    case 'paused by gap':
      if (condition.id === 'through thickness')
        return `Hold through the thickness stopped by missing readings: ${doneOf(condition)}`;
      return assessment.soak.state === 'voided'
        ? 'Wait lost by missing readings: enter heat off again to begin it anew'
        : `Wait stopped by missing readings: ${doneOf(condition)}`;
    case 'stopped within guard band':
      return stoppedNearText(condition, assessment);
    case 'no soak needed':
      return 'No soak needed: measured opposite the heat';
    case 'judged through the thickness':
      return 'No hold by time stated: the minimum through the thickness is asked for';
    case 'within guard band':
      return `Cannot be judged, within the guard band: ${nearText(condition, assessment)}`;
    case 'calibration not shown':
      return `Calibration not shown: ${listText(missing)}`;
    case 'check not answered':
      return `Checks before welding not answered: ${listText(missing)}`;
    case 'check not in order':
      return `Not in order before welding: ${listText(missing)}`;
    case 'hold point refused':
    case 'hold point not released':
      return `Hold point not released: ${listText(missing)}`;
    case 'ambient check not made':
      return 'Probes not checked at ambient: the procedure asks for it before heating';
    case 'ambient check failed':
      return missing.length === 0
        ? 'Check at ambient: all probes together too far from the air'
        : `Check at ambient not passed: ${listText(missing)}`;
    default:
      return throughNotJudged(reason, condition, assessment);
  }
};

/** Where a probe sits, as one would point to it: its use if that names a face, else side and face. */
export const probeWhere = (probe: string, { probes }: Assessment): string => {
  const status = probes.find((each) => each.probe === probe);
  if (status?.use === 'opposite face') return 'opposite face';
  return status?.place === undefined ? '' : placeShort(status.place);
};

function hiddenText(condition: Condition, assessment: Assessment): string {
  if (condition.id === 'evenness')
    return `Evenness not judged: with a probe that is distrusted or not read any more, zone probes of one face ${spreadText(condition, assessment)}`;
  const isDistrusted = assessment.probes.find(({ probe }) => probe === condition.probe)?.distrusted !== undefined;
  const only = isDistrusted ? 'only a distrusted probe reads' : 'a probe that is not read any more was last';
  return `Not judged: ${only} above it, ${hotText(condition, assessment)}; take a contact reading there`;
}

const unitsOf = ({ requirement }: Assessment): UnitSystem => requirement.units;

const metText = (condition: Condition, assessment: Assessment): string => {
  switch (condition.id) {
    case 'minimum stated':
      return condition.limit === undefined
        ? 'No preheat needed'
        : `Minimum preheat known: ${limitText(condition.limit as MilliCelsius, unitsOf(assessment))}`;
    case 'zone probes placed':
      return 'Zone probes placed';
    case 'minimum reached':
      return condition.value === undefined
        ? 'Minimum preheat reached'
        : `Minimum reached: coldest ${belowText(condition, assessment)}`;
    case 'soak':
      return condition.limit === undefined
        ? 'Soak done'
        : `Soak done: ${durationText(condition.limit as Milliseconds)}`;
    case 'through thickness':
      return condition.limit === undefined || condition.limit === 0
        ? 'Warm through'
        : `Warm through and held: ${durationText(condition.limit as Milliseconds)}`;
    case 'evenness':
      return condition.value === undefined
        ? 'Even'
        : `Even: zone probes of one face ${spreadText(condition, assessment)}`;
    case 'highest temperature':
      return condition.value === undefined
        ? 'Nowhere above the highest temperature allowed'
        : `Nowhere too hot: hottest ${hotText(condition, assessment)}`;
    case 'interpass maximum':
      return condition.value === undefined ? 'Interpass in the window' : `Interpass ${hotText(condition, assessment)}`;
    case 'answers given':
      return 'No answer is waiting';
    case 'instruments calibrated':
      return 'Instruments calibrated';
    case 'ambient check':
      return 'Probes checked at ambient';
    case 'after break':
      return 'Inspected after the break';
    case 'checks':
      return 'Checks that block the arc in order';
    case 'hold points':
      return 'Hold points released';
  }
};

/** A hold begins by itself; a wait that fell below the minimum needs the heat again. */
const soakBelowText = ({ soak }: Assessment): string =>
  soak.rule === 'wait' && soak.state === 'voided'
    ? 'Wait lost, a place fell below the minimum: heat again, then heat off'
    : 'Soak begins when every place is at the minimum';

const belowText = ({ probe, value, limit, bound }: Condition, assessment: Assessment): string => {
  if (value === undefined) return 'Below the minimum preheat';
  const number = ofLimitText(
    value as MilliCelsius,
    limit as MilliCelsius | undefined,
    unitsOf(assessment),
    undefined,
    bound,
  );
  if (probe === undefined) return number;
  const where = probeWhere(probe, assessment);
  return where === '' ? `${number} at ${probe}` : `${where} ${number} at ${probe}`;
};

const coreBelowText = ({ part, value, limit }: Condition, assessment: Assessment): string => {
  const inside = part === undefined ? 'inside' : `inside ${part}`;
  return value === undefined
    ? `Not warm through: coldest ${inside} below the minimum`
    : `Not warm through: coldest ${inside} ${ofLimitText(value as MilliCelsius, limit as MilliCelsius, unitsOf(assessment), 'down')}`;
};

const throughNotJudged = (reason: SectionReason, condition: Condition, assessment: Assessment): string => {
  const { part, value, limit, missing = [] } = condition;
  return `Through the thickness not judged: ${reasonText(reason, { part, value, limit, missing }, unitsOf(assessment))}`;
};

/** A hold that is stopped, or was lost, where a reading lies within the guard band. */
const stoppedNearText = (condition: Condition, { soak }: Assessment): string => {
  if (condition.id === 'through thickness')
    return `Hold through the thickness cannot be judged, within the guard band: ${doneOf(condition)}`;
  return soak.state === 'voided'
    ? 'Wait lost within the guard band: heat until every place lies beyond it, then enter heat off again'
    : `Wait cannot be judged, a place lies within the guard band: ${doneOf(condition)}`;
};

/** As near as this to the limit the reading proves neither side. */
const nearText = (condition: Condition, assessment: Assessment): string => {
  if (condition.id === 'evenness') return `zone probes of one face ${spreadText(condition, assessment)}`;
  if (condition.id === 'through thickness')
    return `coldest inside ${condition.part ?? 'a part'}, ${belowText(condition, assessment)}`;
  return condition.id === 'minimum reached' ? belowText(condition, assessment) : hotText(condition, assessment);
};

const hotText = ({ probe, value, limit, bound }: Condition, assessment: Assessment): string => {
  const units = unitsOf(assessment);
  if (value === undefined)
    return limit === undefined ? 'above its limit' : `above ${limitText(limit as MilliCelsius, units)}`;
  const number =
    limit === undefined
      ? temperatureText(value as MilliCelsius, units)
      : atMostText(value as MilliCelsius, limit as MilliCelsius, units, bound);
  return probe === undefined ? number : `${number} at ${probe}`;
};

const spreadText = ({ value, limit }: Condition, assessment: Assessment): string => {
  const units = unitsOf(assessment);
  if (value === undefined) return 'too far apart';
  const beside = { limit: limit as Millikelvin | undefined };
  const number = differenceText(value as Millikelvin, units, beside);
  return limit === undefined
    ? `${number} apart`
    : `${number} apart, at most ${differenceLimitText(limit as Millikelvin, units)}`;
};

const noReadingText = ({ id }: Condition): string => {
  if (id === 'interpass maximum') return 'Interpass not judged: no fresh reading at an interpass place';
  if (id === 'evenness') return 'Evenness not judged: it takes two trusted zone probes on one face';
  if (id === 'highest temperature') return 'Highest temperature not judged: no trusted reading on the part now';
  return 'No trusted reading now';
};

const noLimitText = ({ id, value }: Condition, assessment: Assessment): string => {
  if (id !== 'evenness') return 'No limit stated, so not judged';
  return value === undefined
    ? 'Evenness not judged: no limit stated'
    : `Zone probes of one face ${differenceText(value as Millikelvin, unitsOf(assessment))} apart; no limit stated, so not judged`;
};

const doneOf = ({ value, limit }: Condition): string => {
  const done = value === undefined ? 'begun' : durationText(value as Milliseconds);
  return limit === undefined ? done : `${done} of ${durationText(limit as Milliseconds)}`;
};

const waitOf = ({ limit }: Condition): string =>
  limit === undefined ? '' : `, ${durationText(limit as Milliseconds)} to wait then`;

const toGo = ({ timeToGo }: Condition): string => (timeToGo === undefined ? '' : `, ${aboutText(timeToGo)}`);

/** What is to be answered, by the kind of the warning. An unknown kind is told by its own name. */
const answerText = (kind: string): string => {
  if (kind === 'procedure below calculation') return 'the procedure asks for less than the calculation';
  if (kind === 'extended range not accepted') return 'a calculation outside its range';
  return kind;
};
