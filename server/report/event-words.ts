/** An entry of the record in one line of plain words. A person's own words are kept as they were typed. */

import { ambientOutcomes } from '../judgement/ambient/touch.ts';
import type { Instant } from '../measure/quantity.ts';
import type { UnitSystem } from '../measure/units.ts';
import type { Act, StationEvent } from '../weld/entry.ts';
import type { Joint } from '../weld/joint.ts';
import type { PassDetails } from '../weld/pass-acts.ts';
import { afterActText } from '../wording/after.ts';
import { alarmKeyText } from '../wording/alarm.ts';
import { checkText } from '../wording/ambient.ts';
import { breakActText } from '../wording/break.ts';
import { checkActText } from '../wording/checks.ts';
import { findingKeyText } from '../wording/finding.ts';
import { handOverActText } from '../wording/hand-over.ts';
import { holeText } from '../wording/hole.ts';
import { handKindText, instrumentActText, typedHandText } from '../wording/instrument.ts';
import { linkEventText } from '../wording/link-event.ts';
import { correctionActText, detailTexts } from '../wording/pass.ts';
import { heldText } from '../wording/qualification.ts';
import { durationText } from '../wording/time.ts';
import { placeText, sourceText, useText } from '../wording/words.ts';
import type { Times } from './paper.ts';

export const actWords = (act: Act, enteredAt: Instant, times: Times, units: UnitSystem): string => {
  switch (act.kind) {
    case 'heat':
      return `Heat ${act.state}${earlier(act.happenedAt, enteredAt, times)}`;
    case 'pass start':
      return `Pass ${act.pass} (${act.passKind}) begun by ${[act.welder, ...detailTexts(act, units), ...heldText(act.qualifications)].join(', ')}${earlier(act.happenedAt, enteredAt, times)}`;
    case 'pass end':
      return `Pass ${act.pass} ended${withDetails(act, units)}${earlier(act.happenedAt, enteredAt, times)}`;
    case 'pass details':
      return `Of pass ${act.pass} entered${withDetails(act, units)}`;
    case 'correct pass':
      return folded(correctionActText(act, units, times.when));
    case 'contact reading':
      return `Contact reading ${typedHandText(act.celsius, act.shows, units)} with ${act.instrument}${ofKind(act)}${act.probe === undefined ? '' : `, beside ${act.probe}`}, ${useText(act.use).toLowerCase()}, part ${act.place.part}: ${placeText(act.place, units)}${earlier(act.happenedAt, enteredAt, times)}`;
    case 'ambient check':
      return checkText(act, ambientOutcomes(act), units);
    case 'break':
    case 'break inspected':
      return `${folded(breakActText(act))}${earlier(act.happenedAt, enteredAt, times)}`;
    case 'check answered':
    case 'point released':
    case 'point waived':
    case 'point refused':
      return `${folded(checkActText(act))}${earlier(act.happenedAt, enteredAt, times)}`;
    case 'welding complete':
    case 'post-heating':
    case 'cover':
    case 'heat treatment begun':
    case 'testing begun':
    case 'spot examined':
      return `${afterActText(act)}${earlier(act.happenedAt, enteredAt, times)}`;
    case 'note':
      return `Note: ${folded(act.text)}${act.document === undefined ? '' : ` (document ${act.document.slice(0, 12)})`}`;
    case 'hand-over':
      return folded(handOverActText(act));
    case 'acknowledge':
      return `Took note of alarm ${alarmKeyText(act.alarm)}`;
    case 'shelve':
      return `Put alarm ${alarmKeyText(act.alarm)} aside for ${act.minutes} min. Reason: ${folded(act.reason)}`;
    case 'unshelve':
      return `Took alarm ${alarmKeyText(act.alarm)} up again`;
    case 'accept':
      return `Accepted: ${act.subject}${act.method === undefined ? '' : `, method ${act.method}`}. Reason: ${folded(act.reason)}`;
    case 'disposition':
      return `Decided on ${findingKeyText(act.finding)}: ${act.decision}. Reason: ${folded(act.reason)}`;
    case 'calibration':
    case 'verification':
    case 'adjustment':
      return `${instrumentActText(act, units)}${earlier(act.happenedAt, enteredAt, times)}`;
    case 'declare source':
      return `Declared the source of the readings: ${folded(act.statement)}`;
    case 'distrust probe':
      return `Took ${act.probe} out of the judgement${earlier(act.happenedAt, enteredAt, times)}. Reason: ${folded(act.reason)}`;
    case 'trust probe again':
      return `Trusted ${act.probe} again${earlier(act.happenedAt, enteredAt, times)}. Reason: ${folded(act.reason)}`;
    case 'spare takes over':
      return `Spare ${act.spare} took over from ${act.probe}${act.place === undefined ? '' : ` at ${placeText(act.place, units)}`}${earlier(act.happenedAt, enteredAt, times)}. Reason: ${folded(act.reason)}`;
    case 'attach':
      return `Attached document: ${act.title} (${act.mediaType}, SHA-256 begins ${act.sha256.slice(0, 12)})`;
    case 'revise':
      return `Revised the joint${boundText(act.joint)}. Reason: ${folded(act.reason)}`;
    case 'close':
      return `Closed the joint${act.statement === undefined || act.statement === '' ? '' : `: ${folded(act.statement)}`}`;
  }
};

const boundText = ({ procedure, boundRevision }: Joint): string =>
  procedure === undefined || boundRevision === undefined
    ? ''
    : `, bound to ${procedure.id}, revision ${procedure.revision}`;

const withDetails = (details: PassDetails, units: UnitSystem): string => {
  const texts = detailTexts(details, units);
  return texts.length === 0 ? '' : `: ${texts.join(', ')}`;
};

const ofKind = ({ instrumentKind: kind, emissivity }: Act & { kind: 'contact reading' }): string =>
  kind === undefined
    ? ''
    : `, ${handKindText(kind)}${emissivity === undefined ? '' : ` set to an emissivity of ${emissivity}`}`;

export const stationWords = (event: StationEvent): string => {
  switch (event.kind) {
    case 'opened':
      return `Record opened by ${event.openedBy}. ${sourceText(event.source)}`;
    case 'imported file':
      return `Read from the file ${event.name} (SHA-256 begins ${event.sha256.slice(0, 12)}), see Imported files`;
    case 'source':
      return sourceText(event.source);
    case 'period':
      return `Board ${event.board} now sends every ${event.periodMilliseconds / 1000} s`;
    case 'board':
    case 'twin':
    case 'suspended':
      return linkEventText(event);
    case 'link':
      return `Link to board ${event.board} ${event.state}: ${event.cause}`;
    case 'hole':
      return holeText(event);
    case 'clock':
      return `The clock of the station was set ${event.steppedMilliseconds < 0 ? 'back' : 'forward'} by ${Math.abs(event.steppedMilliseconds) / 1000} s`;
    case 'station':
      return stationStateWords(event.state, event.lost);
  }
};

const stationStateWords = (state: 'started' | 'stopped' | 'not recording', lost: number | undefined): string => {
  const words = { started: 'Station started', stopped: 'Station stopped', 'not recording': 'Station could not record' };
  return `${words[state]}${lost === undefined || lost === 0 ? '' : `; ${lost} readings lost`}`;
};

/** Words with very many line breaks are set on one line, each break marked: a page is not for empty lines. */
export const folded = (words: string): string =>
  words.split('\n').length > linesMaximum ? words.split('\n').join(' \u21B5 ') : words;

const linesMaximum = 12;

const earlier = (happenedAt: number | undefined, enteredAt: Instant, times: Times): string =>
  happenedAt === undefined || happenedAt === enteredAt
    ? ''
    : ` at ${times.when(happenedAt as Instant)}, entered ${durationText(Math.max(0, enteredAt - happenedAt) as Parameters<typeof durationText>[0])} later`;
