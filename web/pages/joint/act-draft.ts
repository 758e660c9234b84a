/**
 * What stands in the form of an act, as text, and the act that it makes. Text that is not plainly one number
 * is told as such and never guessed at.
 */

import { rules } from '../../../server/judgement/rules.ts';
import { limits } from '../../../server/measure/limits.ts';
import { readNumber } from '../../../server/measure/number-text.ts';
import type { Instant } from '../../../server/measure/quantity.ts';
import { unitsOf } from '../../../server/measure/units.ts';
import type { Act } from '../../../server/weld/entry.ts';
import type { Joint } from '../../../server/weld/joint.ts';
import type { LiveJoint } from '../../feed/live-joint.ts';
import { clockBefore } from '../../format/time.ts';
import { afterActOf, freshAfter } from './after-draft.ts';
import { breakActOf, freshBreak } from './break-draft.ts';
import { handReadingOf, lastEmissivity, lastHandInstrument } from './hand-draft.ts';
import { freshPassEnd, freshPassStart, noDetails, passEndOf, passFormField, passStartOf } from './pass-draft.ts';

export type SheetKind =
  | 'heat'
  | 'pass start'
  | 'pass end'
  | 'pass details'
  | 'correct pass'
  | 'contact reading'
  | 'twin reading'
  | InstrumentSheetKind
  | 'after'
  | 'break'
  | 'note'
  | 'attach'
  | 'close'
  | 'accept'
  | 'disposition'
  | 'change over'
  | 'declare source'
  | 'ambient check'
  | 'checks'
  | 'probe';
/** Kinds whose act is made by their own sheet. */
const ownSheets = [
  'pass details',
  'correct pass',
  'attach',
  'accept',
  'disposition',
  'change over',
  'ambient check',
  'checks',
  'probe',
  'calibration',
  'verification',
  'adjustment',
  'instrument',
] as const satisfies readonly SheetKind[];
type OwnSheet = (typeof ownSheets)[number];
export const isPlain = (kind: SheetKind): kind is Exclude<SheetKind, OwnSheet> =>
  !(ownSheets as readonly SheetKind[]).includes(kind);
/** A form that is open in place of the buttons; `probe` or `pass`: of which it is. */
export interface OpenSheet {
  readonly kind: Exclude<SheetKind, InstrumentSheetKind>;
  readonly probe?: string;
  readonly pass?: string;
}
/** Sheets of the register of instruments, which make their acts themselves (instrument-draft.ts). */
export type InstrumentSheetKind = 'calibration' | 'verification' | 'adjustment' | 'instrument';
export type Draft = Readonly<Record<string, string>>;
export type Made =
  | { readonly ok: true; readonly act: Act }
  | { readonly ok: false; readonly problems: Readonly<Record<string, string>> };

/** What a fresh form says before anything is typed. `by` is who acts on this device. */
export const freshDraft = (kind: SheetKind, live: LiveJoint, by: string): Draft => {
  const { assessment, joint } = live;
  switch (kind) {
    case 'heat':
      return { state: assessment.heat === 'on' || isStillRising(assessment.conditions) ? 'off' : 'on', ago: '' };
    case 'pass start':
      return freshPassStart(live, by);
    case 'pass end':
      return freshPassEnd(live);
    case 'pass details':
      return noDetails;
    case 'correct pass':
      return {};
    case 'contact reading':
      return {
        celsius: '',
        ...lastHandInstrument(joint),
        shows: '',
        emissivity: lastEmissivity(),
        probe: '',
        use: 'interpass',
        part: joint.parts[0]?.id ?? '',
        side: 'A',
        face: 'front',
        distance: '10',
        ago: '',
      };
    case 'twin reading':
      return {
        celsius: '',
        ...lastHandInstrument(joint),
        emissivity: lastEmissivity(),
        probe: assessment.twinAsked?.probe ?? '',
      };
    case 'calibration':
    case 'verification':
    case 'adjustment':
    case 'instrument':
      return {};
    case 'after':
      return freshAfter(live);
    case 'break':
      return freshBreak(live);
    case 'note':
    case 'declare source':
    case 'close':
      return { text: '' };
    case 'attach':
      return { title: '' };
    case 'accept':
    case 'disposition':
    case 'change over':
    case 'ambient check':
    case 'checks':
    case 'probe':
      return {};
  }
};

/** The act of the form; `now` is the station's time. */
export const actOf = (kind: Exclude<SheetKind, OwnSheet>, draft: Draft, now: Instant, joint: Joint): Made => {
  const problems: Record<string, string> = {};
  const problem = (field: string, ask: string): void => {
    problems[field] = ask;
  };
  const text = (field: string, ask: string): string => {
    const value = (draft[field] ?? '').trim();
    if (value === '') problems[field] = ask;
    if (value.length > limits.textMaximum)
      problems[field] = `At most ${limits.textMaximum} characters; this has ${value.length}.`;
    return value;
  };
  const number = (field: string, ask: string, low: number, high: number): number => {
    const read = readNumber(draft[field] ?? '');
    if (read.kind === 'none') problems[field] = ask;
    else if (read.kind === 'not a number') problems[field] = `"${draft[field]}" is not a number.`;
    else if (read.value < low || read.value > high) problems[field] = `Between ${low} and ${high}.`;
    else return read.value;
    return 0;
  };
  const ago = happenedAt(draft.ago ?? '', now, problems);
  const act = build();
  return Object.keys(problems).length > 0 ? { ok: false, problems } : { ok: true, act };

  function build(): Act {
    switch (kind) {
      case 'heat':
        return { kind, state: draft.state === 'off' ? 'off' : 'on', ...ago };
      case 'pass start':
        return passStartOf(draft, unitsOf(joint), { text, problem }, ago);
      case 'pass end':
        return passEndOf(draft, unitsOf(joint), { text, problem }, ago);
      case 'contact reading':
      case 'twin reading':
        return handReadingOf(draft, joint, { text, number, problem }, ago);
      case 'after':
        return afterActOf(draft, problem, ago);
      case 'break':
        return breakActOf(draft, problem, ago);
      case 'note':
        return { kind, text: text('text', 'A note needs words.') };
      case 'declare source':
        return { kind, statement: text('text', 'Say what is connected and how you know.') };
      case 'close': {
        const statement = (draft.text ?? '').trim();
        return { kind, ...(statement === '' ? {} : { statement }) };
      }
    }
  }
};

/** Minutes ago, or the time of day at which it was, within the last day. */
const happenedAt = (ago: string, now: Instant, problems: Record<string, string>): { happenedAt?: number } => {
  const clock = clockBefore(ago, now);
  if (clock !== undefined) return { happenedAt: clock };
  const read = readNumber(ago);
  if (read.kind === 'none') return {};
  if (read.kind === 'not a number') {
    problems.ago = `"${ago}" is neither minutes nor a time as 13:05.`;
    return {};
  }
  if (read.value < 0 || read.value > rules.toldWithin / 60_000) {
    problems.ago = 'Within the last 24 h; write a note of what is older.';
    return {};
  }
  return read.value === 0 ? {} : { happenedAt: Math.round(now - read.value * 60_000) };
};

const isStillRising = (conditions: LiveJoint['assessment']['conditions']): boolean =>
  conditions.some((condition) => condition.reason === 'face still rising');

/** A problem's path as the station names it, to the entry of the form. */
export const formField = (path: string): string => {
  const last = path.split('.').at(-1) ?? path;
  const names: Readonly<Record<string, string>> = {
    distanceMillimetres: 'distance',
    happenedAt: 'ago',
    statement: 'text',
    reason: 'text',
  };
  return names[last] ?? passFormField(last);
};
