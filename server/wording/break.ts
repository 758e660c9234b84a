/** Breaks in words: what was entered, how each stood, what is asked for before going on, and what was found. */
import type { Finding } from '../judgement/assessment.ts';
import type { BreakStatus } from '../judgement/breaks/break-status.ts';
import type { Condition } from '../judgement/condition.ts';
import type { FindingKind } from '../judgement/finding-kind.ts';
import type { Instant, MilliCelsius } from '../measure/quantity.ts';
import type { UnitSystem } from '../measure/units.ts';
import type { AfterBreakAsk, BreakAct } from '../weld/break.ts';
import type { FindingWords } from './finding.ts';
import { reached } from './finding-numbers.ts';
import { begun, listText } from './list.ts';
import { limitText, ofLimitText } from './temperature.ts';
import { durationText } from './time.ts';

/** One line without a full stop. */
export const breakActText = (act: BreakAct): string => {
  if (act.kind === 'break') return `Break ${act.state}${act.reason === undefined ? '' : `: ${act.reason}`}`;
  return `Inspected after a break (${act.method}): ${act.result}${act.note === undefined ? '' : `. ${act.note}`}`;
};

export type AfterBreakReason =
  | 'soak again after a break'
  | 'not inspected'
  | 'indication found'
  | 'nothing stated for a cold break'
  | 'nothing stated for a break not read';

export const isAfterBreakReason = (reason: Condition['reason']): reason is AfterBreakReason =>
  reason === 'soak again after a break' ||
  reason === 'not inspected' ||
  reason === 'indication found' ||
  reason === 'nothing stated for a cold break' ||
  reason === 'nothing stated for a break not read';

/** Of a condition that is not met. */
export const afterBreakText = (reason: AfterBreakReason, condition: Condition, units: UnitSystem): string => {
  switch (reason) {
    case 'soak again after a break':
      return 'Soak again after the break: heat again, then enter heat off';
    case 'not inspected':
      return `Inspection after the break asked for before going on${condition.missing === undefined ? '' : `, by the ${listText(condition.missing)}`}`;
    case 'indication found':
      return 'Indication found after the break: see to it, then have it inspected again';
    case 'nothing stated for a cold break': {
      const { value, limit } = condition;
      const came =
        value === undefined
          ? ''
          : `, it came down to ${ofLimitText(value as MilliCelsius, limit as MilliCelsius | undefined, units)}`;
      return `Too cold in the break${came}; the procedure does not say what to do then: ask the coordinator`;
    }
    case 'nothing stated for a break not read':
      return 'A place was not read in the break: nobody knows whether it stayed warm, and the procedure does not say what to do then: ask the coordinator';
  }
};

export type BreakFindingKind =
  | 'maintenance temperature lost'
  | 'inspection after a break not shown'
  | 'indication after a break'
  | 'gone on over an indication'
  | 'cold break not judged';

export const isBreakFinding = (kind: FindingKind): kind is BreakFindingKind =>
  kind === 'maintenance temperature lost' ||
  kind === 'inspection after a break not shown' ||
  kind === 'indication after a break' ||
  kind === 'gone on over an indication' ||
  kind === 'cold break not judged';

export const breakFindingText = (kind: BreakFindingKind, finding: Finding, units: UnitSystem): FindingWords => {
  const at = finding.probe === undefined ? '' : ` at ${finding.probe}`;
  const start = finding.pass === undefined ? 'when a pass began' : `when pass ${finding.pass} began`;
  switch (kind) {
    case 'maintenance temperature lost':
      return {
        what: `Below the temperature to be kept during a break${at}${reached(finding, units)}`,
        why: 'A joint that cools half welded can crack before it is finished.',
        first: 'Heat again and see what the procedure asks before going on.',
      };
    case 'inspection after a break not shown':
      return {
        what: `No inspection after the break is entered ${start}`,
        why: 'The procedure asks for one, since a crack that opened in the break is welded over and no longer seen.',
        first: 'Tell the coordinator; have it examined as far as it can still be.',
      };
    case 'indication after a break':
      return {
        what: 'An indication was found at the inspection after a break',
        why: 'A crack in a joint that is half welded grows under the next pass.',
        first: 'Take it out as the procedure says, have it inspected again, and only then go on.',
      };
    case 'gone on over an indication':
      return {
        what: `Welded on over an indication ${start}`,
        why: 'The last inspection after the break had found an indication, and none after it says that it is gone.',
        first: 'Stop, tell the coordinator, and have it taken out.',
      };
    case 'cold break not judged':
      return finding.value === undefined
        ? {
            what: `Whether welding could go on after a break is not judged ${start}: a place was not read in it`,
            why: 'Nobody knows whether the joint was kept warm, and the procedure does not say what is to be done then.',
            first: 'Ask the coordinator, and have the procedure state what is asked for after a cold break.',
          }
        : {
            what: `Whether welding could go on after a cold break is not judged ${start}${reached(finding, units)}`,
            why: 'The joint fell below the temperature to be kept, and the procedure does not say what is to be done then.',
            first: 'Ask the coordinator, and have the procedure state it.',
          };
  }
};

const asked: Readonly<Record<AfterBreakAsk, string>> = {
  'soak again': 'soak again',
  inspection: 'inspection',
};

/** "heat again to 150 °C, soak again and inspection": what is asked for before going on; the minimum always is. */
export const breakAsksText = (
  { asks }: BreakStatus,
  minimum: MilliCelsius | undefined,
  units: UnitSystem,
): string | undefined => {
  if (asks === undefined) return undefined;
  const heat = minimum === undefined ? [] : [`every place at ${limitText(minimum, units)} or above`];
  return listText([...heat, ...asks.map((each) => asked[each])]);
};

const whyWords: Readonly<Record<BreakStatus['by'], string>> = {
  declared: 'declared',
  'no pass': 'no pass for longer than the procedure allows without calling it a break',
  'too cold': 'the temperature to be kept was lost',
};

/** Time, cause, how cold and for how long, and what came of it: for screen and paper. `when` writes an instant. */
export const breakLines = (
  breaks: readonly BreakStatus[],
  now: Instant,
  units: UnitSystem,
  when: (at: Instant) => string,
): readonly { readonly name: string; readonly text: string }[] =>
  breaks.map((each) => ({
    name: `${when(each.from)} to ${each.to === undefined ? 'now' : when(each.to)}`,
    text: `${begun(
      [
        durationText(((each.to ?? now) - each.from) as Parameters<typeof durationText>[0]),
        each.reason === undefined
          ? whyWords[each.by]
          : `${each.by === 'declared' ? '' : `${whyWords[each.by]}; `}declared by ${each.who ?? 'somebody'}: ${each.reason}`,
        keptText(each, units),
        inspectionText(each),
      ]
        .filter((part) => part !== undefined)
        .join('; '),
    )}`,
  }));

const keptText = ({ kept, coldest, limit, below }: BreakStatus, units: UnitSystem): string => {
  const cold =
    coldest === undefined
      ? ''
      : `, coldest ${ofLimitText(coldest.temperature, limit, units, undefined, coldest.bound)} at ${coldest.probe}`;
  if (kept === 'below') return `fell below what is to be kept for ${durationText(below)}${cold}`;
  return kept === 'warm' ? `stayed warm${cold}` : `not known whether it stayed warm${cold}`;
};

const inspectionText = ({ asks, inspection }: BreakStatus): string | undefined => {
  if (inspection !== undefined)
    return `inspected by ${inspection.who}${inspection.role === undefined ? '' : `, ${inspection.role}`} (${inspection.method}): ${inspection.result}`;
  return asks?.includes('inspection') === true ? 'no inspection that counts is entered' : undefined;
};
