/** Checks before welding and points of inspection in words. */
import type { Finding } from '../judgement/assessment.ts';
import type { CheckStatus, PointStatus, Refusal } from '../judgement/checks/check-status.ts';
import type { FindingKind } from '../judgement/finding-kind.ts';
import type { Instant } from '../measure/quantity.ts';
import type { CheckAct, Point } from '../weld/checks.ts';
import type { FindingWords } from './finding.ts';
import { begun } from './list.ts';

/** One line without a full stop. */
export const checkActText = (act: CheckAct): string => {
  switch (act.kind) {
    case 'check answered':
      return `Check ${act.check}: ${act.answer}${act.note === undefined ? '' : `. ${act.note}`}${act.document === undefined ? '' : ` (photo ${act.document.slice(0, 12)})`}`;
    case 'point released':
      return `Point ${act.point} released${act.note === undefined ? '' : `. ${act.note}`}`;
    case 'point waived':
      return `Point ${act.point} waived. ${act.reason}`;
    case 'point refused':
      return `Point ${act.point} looked at and not released. ${act.reason}`;
  }
};

/** "hold point H1 before the first pass, released by the inspector". */
export const pointText = ({ id, kind, before, pass, role }: Point): string =>
  `${kind} point ${id} before ${before === 'pass' ? `pass ${pass}` : beforeWords[before]}, released by the ${role}`;

const beforeWords = { 'first pass': 'the first pass', 'post-heating': 'post-heating', closing: 'closing' } as const;

export const answerLine = ({ answered, role, weight }: CheckStatus, when: (at: Instant) => string): string => {
  if (answered === undefined)
    return `not answered${role === undefined ? '' : `, asked of the ${role}`}${weight === 'warns' ? '; only warns' : ''}`;
  const { answer, who, role: by, note, at } = answered;
  const photo = answered.document;
  return `${answer}, ${who}${by === undefined ? '' : `, ${by}`}, ${when(at)}${note === undefined ? '' : `: ${note}`}${photo === undefined ? '' : ` (photo ${photo.slice(0, 12)})`}`;
};

export const releaseLine = (
  { given, refused, passedAt, ...point }: PointStatus,
  when: (at: Instant) => string,
): string => {
  const what = pointText(point);
  const past = passedAt === undefined ? '' : `; passed without it ${when(passedAt)}`;
  if (refused !== undefined) return `${what}: not released by ${byText(refused, when)}: ${refused.reason}${past}`;
  if (given === undefined) return `${what}: not yet${past}`;
  const { state, note } = given;
  return `${what}: ${state} by ${byText(given, when)}${note === undefined ? '' : `: ${note}`}${past}`;
};

const byText = ({ who, role, at }: Omit<Refusal, 'reason'>, when: (at: Instant) => string): string =>
  `${who}${role === undefined ? '' : `, ${role}`}, ${when(at)}`;

/** Name and text of each check and point: for screen and paper. */
export const checkLines = (
  checks: readonly CheckStatus[],
  points: readonly PointStatus[],
  when: (at: Instant) => string,
): readonly { readonly name: string; readonly text: string }[] => [
  ...checks.map((each) => ({ name: each.text, text: begun(answerLine(each, when)) })),
  ...points.map((each) => ({ name: each.text ?? each.id, text: begun(releaseLine(each, when)) })),
];

export type CheckFindingKind =
  | 'check not answered'
  | 'check not in order'
  | 'check only warns'
  | 'hold point not released'
  | 'witness point passed';

export const isCheckFinding = (kind: FindingKind): kind is CheckFindingKind =>
  kind === 'check not answered' ||
  kind === 'check not in order' ||
  kind === 'check only warns' ||
  kind === 'hold point not released' ||
  kind === 'witness point passed';

export const checkFindingText = (kind: CheckFindingKind, { item, pass }: Finding): FindingWords => {
  const what = item === undefined ? '' : `: ${item}`;
  const start = pass === undefined ? '' : ` when pass ${pass} began`;
  switch (kind) {
    case 'check not answered':
      return {
        what: `A check before welding was not answered${start}${what}`,
        why: 'The procedure asks for it, and what nobody looked at cannot be seen any more once it is welded over.',
        first: 'Tell the coordinator; answer what can still be seen.',
      };
    case 'check not in order':
      return {
        what: `Welded although a check was not in order${start}${what}`,
        why: 'The procedure asks for it to be put in order before the arc.',
        first: 'Tell the coordinator, who decides whether the weld can stay.',
      };
    case 'check only warns':
      return {
        what: `A check before welding was not answered, or not in order${start}${what}`,
        why: 'The procedure asks for it and lets the work go on without.',
        first: 'Look at it before the next pass, and answer it.',
      };
    case 'hold point not released':
      return {
        what: `A hold point was passed without its release${start}${what}`,
        why: 'Whoever was to look before the work went on had no chance to.',
        first: 'Stop, and tell whoever releases the point.',
      };
    case 'witness point passed':
      return {
        what: `A witness point was passed and nobody attended${start}${what}`,
        why: 'Work may go on past it, but whoever was to be told may want to know.',
        first: 'Tell whoever was to attend.',
      };
  }
};
