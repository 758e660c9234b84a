/** One entry of the record in one line. What is not known by name is shown as it is: nothing is left out. */

import { ambientOutcomes } from '../../../server/judgement/ambient/touch.ts';
import type { Instant } from '../../../server/measure/quantity.ts';
import type { UnitSystem } from '../../../server/measure/units.ts';
import type { TimelineEvent } from '../../../server/screen/contract.ts';
import { ambientCheckSchema } from '../../../server/weld/ambient-check.ts';
import type { BreakAct } from '../../../server/weld/break.ts';
import type { CheckAct } from '../../../server/weld/checks.ts';
import type { AfterAct, StationEvent } from '../../../server/weld/entry.ts';
import type { HandOverAct } from '../../../server/weld/hand-over.ts';
import type { Bound } from '../../../server/weld/hand-reading.ts';
import type { ImportedFile } from '../../../server/weld/imported.ts';
import { type HandKind, handKinds } from '../../../server/weld/instrument.ts';
import type { PassCorrectionAct, PassDetails } from '../../../server/weld/pass-acts.ts';
import type { Qualification } from '../../../server/weld/qualification.ts';
import { afterActText } from '../../../server/wording/after.ts';
import { alarmKeyText } from '../../../server/wording/alarm.ts';
import { checkText } from '../../../server/wording/ambient.ts';
import { breakActText } from '../../../server/wording/break.ts';
import { checkActText } from '../../../server/wording/checks.ts';
import { findingKeyText } from '../../../server/wording/finding.ts';
import { handOverActText } from '../../../server/wording/hand-over.ts';
import { holeText } from '../../../server/wording/hole.ts';
import { importedFileText } from '../../../server/wording/imported.ts';
import {
  handKindText,
  type InstrumentAct,
  instrumentActText,
  typedHandText,
} from '../../../server/wording/instrument.ts';
import { type LinkEvent, linkEventText } from '../../../server/wording/link-event.ts';
import { begun } from '../../../server/wording/list.ts';
import { correctionActText, detailTexts } from '../../../server/wording/pass.ts';
import { heldText } from '../../../server/wording/qualification.ts';
import { type RemovalTold, removalEntryText } from '../../../server/wording/removal.ts';
import { clockText, type Zone } from '../../format/time.ts';

const handKind = (kind: unknown): string =>
  (handKinds as readonly unknown[]).includes(kind) ? handKindText(kind as HandKind) : '';

export const entryLine = ({ at, kind, body }: TimelineEvent, units: UnitSystem, zone?: Zone): string => {
  const said = (typeof body === 'object' && body !== null ? body : {}) as Record<string, unknown>;
  const text = (name: string): string =>
    typeof said[name] === 'string' || typeof said[name] === 'number' ? String(said[name]) : '';
  const details = (before: string): string => optional(before, detailTexts(said as PassDetails, units).join(', '));
  return `${line()}${happened(said.happenedAt, at, zone)}`;

  function line(): string {
    switch (kind) {
      case 'opened':
        return 'Opened with the joint as entered';
      case 'imported file':
        return importedFileText(body as ImportedFile, (when) => clockText(when, zone));
      case 'heat':
        return `Heat ${text('state')}`;
      case 'pass start':
        return `Pass ${text('pass')} started: ${text('passKind')}, welder ${text('welder')}${details(', ')}${heldText(
          said.qualifications as readonly Qualification[] | undefined,
        )
          .map((each) => `, ${each}`)
          .join('')}`;
      case 'pass end':
        return `Pass ${text('pass')} ended${details(': ')}`;
      case 'pass details':
        return `Of pass ${text('pass')} entered${details(': ')}`;
      case 'correct pass':
        return correctionActText(said as PassCorrectionAct, units, (when) => clockText(when, zone));
      case 'contact reading':
        return `Contact reading ${typeof said.celsius === 'number' ? typedHandText(said.celsius, said.shows as Bound | undefined, units) : ''} for ${text('use')}${optional(', beside ', text('probe'))}, ${optional('', handKind(said.instrumentKind))} ${text('instrument')}`.replace(
          ',  ',
          ', instrument ',
        );
      case 'ambient check': {
        const check = ambientCheckSchema.safeParse(withoutKind(said));
        return check.success ? checkText(check.data, ambientOutcomes(check.data), units) : 'Probes checked at ambient';
      }
      case 'hand-over':
        return handOverActText(said as HandOverAct);
      case 'break':
      case 'break inspected':
        return breakActText({ kind, ...said } as BreakAct);
      case 'check answered':
      case 'point released':
      case 'point waived':
      case 'point refused':
        return checkActText({ kind, ...said } as CheckAct);
      case 'welding complete':
      case 'post-heating':
      case 'cover':
      case 'heat treatment begun':
      case 'testing begun':
      case 'spot examined':
        return afterActText({ kind, ...said } as AfterAct);
      case 'note':
        return `Note: ${text('text')}`;
      case 'acknowledge':
        return `Alarm acknowledged: ${alarmKeyText(text('alarm'))}`;
      case 'shelve':
        return `Alarm put aside for ${text('minutes')} min: ${alarmKeyText(text('alarm'))}. ${text('reason')}`;
      case 'unshelve':
        return `Alarm taken up again: ${alarmKeyText(text('alarm'))}`;
      case 'accept':
        return `Accepted ${text('subject')}${optional(' of ', text('method'))}: ${text('reason')}`;
      case 'disposition':
        return `Decided on ${findingKeyText(text('finding'))}: ${text('decision')}. ${text('reason')}`;
      case 'calibration':
      case 'verification':
      case 'adjustment':
        return instrumentActText(body as InstrumentAct, units);
      case 'declare source':
        return `Source declared: ${text('statement')}`;
      case 'distrust probe':
        return `${text('probe')} taken out of the judgement: ${text('reason')}`;
      case 'trust probe again':
        return `${text('probe')} trusted again: ${text('reason')}`;
      case 'spare takes over':
        return `Spare ${text('spare')} took over from ${text('probe')}: ${text('reason')}`;
      case 'attach':
        return `Document kept: ${text('title')}, ${text('mediaType')}, ${text('bytes')} bytes, SHA-256 ${text('sha256').slice(0, 16)}`;
      case 'revise':
        return `Joint corrected: ${text('reason')}`;
      case 'close':
        return `Closed${optional(': ', text('statement'))}`;
      case 'link':
        return `Link to ${text('board')} ${text('state')}${optional(': ', text('cause'))}`;
      case 'hole':
        return holeText(said as unknown as StationEvent & { kind: 'hole' });
      case 'board':
      case 'twin':
      case 'suspended':
        return linkEventText({ kind, ...said } as LinkEvent);
      case 'period':
        return `Board ${text('board')} now sends every ${Number(said.periodMilliseconds) / 1000} s`;
      case 'clock':
        return `The station's clock was moved by ${text('steppedMilliseconds')} ms`;
      case 'station':
        return `Station ${text('state')}`;
      case 'readings removed':
      case 'readings put back':
        return removalEntryText(said as unknown as RemovalTold & { kind: typeof kind });
      case 'source':
        return 'The source of the readings changed';
      default:
        return `${begun(kind)}${Object.keys(said).length === 0 ? '' : `: ${JSON.stringify(body)}`}`;
    }
  }
};

const withoutKind = ({ kind: _kind, ...rest }: Record<string, unknown>): Record<string, unknown> => rest;

const optional = (before: string, text: string): string => (text === '' ? '' : `${before}${text}`);

const happened = (when: unknown, at: Instant, zone: Zone): string =>
  typeof when === 'number' && Math.abs(at - when) >= 1000 ? ` (happened ${clockText(when as Instant, zone)})` : '';
