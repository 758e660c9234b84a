/** Findings of the time after the last arc, and of rates of heating and cooling, in words. */
import type { Finding } from '../judgement/assessment.ts';
import type { FindingKind } from '../judgement/finding-kind.ts';
import type { MilliCelsius, Millikelvin, Milliseconds } from '../measure/quantity.ts';
import type { UnitSystem } from '../measure/units.ts';
import type { FindingWords } from './finding.ts';
import { atMostText, differenceLimitText, differenceText, limitText, ofLimitText } from './temperature.ts';
import { durationText } from './time.ts';

const afterFindingKinds = [
  'minimum lost before post-heating',
  'minimum before post-heating not judged',
  'post-heating not met',
  'post-heating not judged',
  'post-heating above maximum',
  'post-heating maximum not judged',
  'heated too fast',
  'heating rate not judged',
  'cooled too fast',
  'cooling rate not judged',
  'uncovered too warm',
  'uncovering not judged',
  'covered cooling not entered',
  'not cooled before heat treatment',
  'cooling before heat treatment not judged',
  'heat treatment late',
  'tested before the waiting time',
  'probe spot not examined',
  'indication at a probe spot',
] as const satisfies readonly FindingKind[];
export type AfterFindingKind = (typeof afterFindingKinds)[number];

export const isAfterFinding = (kind: FindingKind): kind is AfterFindingKind =>
  (afterFindingKinds as readonly FindingKind[]).includes(kind);

export const afterFindingText = (kind: AfterFindingKind, finding: Finding, units: UnitSystem): FindingWords => {
  const at = finding.probe === undefined ? '' : ` at ${finding.probe}`;
  switch (kind) {
    case 'minimum lost before post-heating':
      return {
        what: `Below the minimum preheat${at} between welding and post-heating${reached(finding, units)}`,
        why: 'Hydrogen is still in the weld there, and cold steel is where it cracks. Post-heating afterwards does not undo that.',
        first: 'Tell the coordinator: the weld may need examination before and after post-heating.',
      };
    case 'minimum before post-heating not judged':
      return {
        what: 'Minimum between welding and post-heating not judged: a required place was not read',
        why: 'Nobody can tell whether the joint stayed warm until post-heating began.',
        first: 'Mend or replace the probe, or take contact readings until post-heating begins.',
      };
    case 'post-heating not met':
      return {
        what: `Post-heating not long enough at its temperature${lasted(finding)}`,
        why: 'Less hydrogen has left the joint than the procedure counts on.',
        first: 'Ask the coordinator whether to post-heat again, before the joint has cooled where that can still be.',
      };
    case 'post-heating not judged':
      return {
        what: `Post-heating not judged${lasted(finding)}`,
        why: 'The procedure asks for it. It was not entered, or places that have to be measured were not read.',
        first: 'Enter when post-heating began and ended; where readings are missing, ask the coordinator.',
      };
    case 'post-heating above maximum':
      return {
        what: `Hotter than post-heating allows${at}${capped(finding, units)}`,
        why: 'Too hot, post-heating tempers steel that is not meant to be tempered.',
        first: 'Turn the heat down and ask the coordinator.',
      };
    case 'post-heating maximum not judged':
      return {
        what: `Highest temperature of post-heating not judged${at}${capped(finding, units)}`,
        why: 'Only a probe that is distrusted or not read any more was above it. That proves no excess, and nothing against one.',
        first: 'Take a contact reading there, and find out whether the probe reads wrongly.',
      };
    case 'heated too fast':
      return {
        what: `Heated faster than the procedure allows${at}${perHour(finding, units)}`,
        why: 'A steep gradient strains thick and restrained parts.',
        first: 'Turn the heat down and let it even out.',
      };
    case 'heating rate not judged':
    case 'cooling rate not judged':
      return {
        what: `How fast the joint ${kind === 'heating rate not judged' ? 'was heated' : 'cooled'} is not judged${at}`,
        why: 'The procedure states the fastest rate, and a place was not read for longer than a rate is measured over.',
        first: 'Mend or replace the probe.',
      };
    case 'cooled too fast':
      return {
        what: `Cooled faster than the procedure allows${at}${perHour(finding, units)}`,
        why: 'Fast cooling strains the joint and keeps hydrogen in it.',
        first: 'Cover the joint, keep draughts off, and ask the coordinator.',
      };
    case 'uncovered too warm':
      return {
        what: `Uncovered while still too warm${at}${capped(finding, units)}`,
        why: 'Under cover the joint was to cool slowly down to the stated temperature.',
        first: 'Cover it again and tell the coordinator.',
      };
    case 'uncovering not judged':
      return {
        what: `Uncovering not judged${of(finding, units)}`,
        why: 'A required place was not read when the cover came off.',
        first: 'Take a contact reading at the hottest place.',
      };
    case 'covered cooling not entered':
      return {
        what: `No cover was entered, though the joint was to cool under one${of(finding, units)}`,
        why: 'Nobody can tell whether it cooled slowly.',
        first: 'Say in a note how it cooled; the coordinator decides.',
      };
    case 'not cooled before heat treatment':
      return {
        what: `Heat treatment begun before all of the zone had cooled${at}${capped(finding, units)}`,
        why: 'What has not become martensite yet is not tempered and becomes brittle afterwards.',
        first: 'Stop if that can still be, and ask the coordinator.',
      };
    case 'cooling before heat treatment not judged':
      return {
        what: `Whether all of the zone had cooled before heat treatment is not judged${of(finding, units)}`,
        why: 'A required place was not read when heat treatment began.',
        first: 'Take a contact reading at the hottest place before it is heated, and ask the coordinator.',
      };
    case 'heat treatment late':
      return {
        what: `Heat treatment begun later than the procedure allows${lasted(finding)}`,
        why: 'Untempered, such a weld can crack while it stands.',
        first: 'Tell the coordinator; examine before and after heat treatment.',
      };
    case 'tested before the waiting time':
      return {
        what: `Testing begun before the waiting time was over${lasted(finding)}`,
        why: 'Hydrogen cracks can open hours after welding; a test before them does not see them.',
        first: 'Test again once the waiting time is over.',
      };
    case 'probe spot not examined':
      return {
        what: `The spot where ${finding.probe ?? 'a probe'} was welded on has not been examined`,
        why: 'A spot is a small, hard arc strike; a crack can begin there.',
        first: 'Grind it flush, examine it, and enter the outcome.',
      };
    case 'indication at a probe spot':
      return {
        what: `An indication was found at the spot of ${finding.probe ?? 'a probe'}`,
        why: 'A crack at an arc strike can grow into the part.',
        first: 'Grind it out as the procedure says and examine it again.',
      };
  }
};

const reached = ({ value, limit }: Finding, units: UnitSystem): string =>
  value === undefined ? '' : `: ${ofLimitText(value as MilliCelsius, limit as MilliCelsius | undefined, units)}`;

const capped = ({ value, limit }: Finding, units: UnitSystem): string =>
  value === undefined ? '' : `: ${atMostText(value as MilliCelsius, limit as MilliCelsius | undefined, units)}`;

const of = ({ limit }: Finding, units: UnitSystem): string =>
  limit === undefined ? '' : `: to ${limitText(limit as MilliCelsius, units)}`;

const perHour = ({ value, limit }: Finding, units: UnitSystem): string => {
  if (value === undefined || limit === undefined) return '';
  return `: ${differenceText(value as Millikelvin, units, { limit: limit as Millikelvin })} an hour, at most ${differenceLimitText(limit as Millikelvin, units)}`;
};

const lasted = ({ value, limit }: Finding): string =>
  value === undefined || limit === undefined
    ? ''
    : `: ${durationText(value as Milliseconds)} of ${durationText(limit as Milliseconds)}`;
