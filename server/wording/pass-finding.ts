/** Findings on what was entered of passes, in words. */
import type { Finding } from '../judgement/assessment.ts';
import type { FindingKind } from '../judgement/finding-kind.ts';
import type { JoulesPerMetre } from '../measure/quantity.ts';
import type { UnitSystem } from '../measure/units.ts';
import type { FindingWords } from './finding.ts';
import { capped } from './finding-numbers.ts';
import { energyText } from './pass.ts';

const passFindingKinds = [
  'heat input below minimum',
  'heat input above maximum',
  'heat input below basis',
  'heat input not given',
  'pass corrected',
  'arc without pass',
  'interpass above maximum during pass',
  'interpass not judged during pass',
] as const satisfies readonly FindingKind[];
export type PassFindingKind = (typeof passFindingKinds)[number];

export const isPassFinding = (kind: FindingKind): kind is PassFindingKind =>
  (passFindingKinds as readonly FindingKind[]).includes(kind);

export const passFindingText = (kind: PassFindingKind, finding: Finding, units: UnitSystem): FindingWords => {
  const of = finding.pass === undefined ? 'of a pass' : `of pass ${finding.pass}`;
  switch (kind) {
    case 'heat input below minimum':
      return {
        what: `Heat input ${of} below the window${numbers(finding, units, 'at least')}`,
        why: 'A small bead on thick steel cools fast and hardens, and the preheat counts on the heat of the bead.',
        first: 'Check the numbers that were entered. If they are right, tell the coordinator before the next pass.',
      };
    case 'heat input above maximum':
      return {
        what: `Heat input ${of} above the window${numbers(finding, units, 'at most')}`,
        why: 'Too much heat makes the steel beside the weld coarse and costs toughness and strength.',
        first: 'Check the numbers that were entered. If they are right, tell the coordinator before the next pass.',
      };
    case 'heat input below basis':
      return {
        what: `Heat input ${of} less than the minimum preheat was worked out with${numbers(finding, units, 'worked out with')}`,
        why: 'With less heat in the bead the same steel wants more preheat, so that the minimum that was judged may be too low.',
        first: 'Check the numbers, and have the minimum worked out anew with the least heat input that is welded with.',
      };
    case 'heat input not given':
      return {
        what: `Heat input ${of} not given`,
        why: 'The procedure states a window for it. What is not entered is not taken as within.',
        first: 'Enter volts, amperes and travel speed of the pass, or length and arc time.',
      };
    case 'pass corrected':
      return {
        what: `What was entered ${of} was put right by ${finding.who ?? 'somebody'}`,
        why: 'The joint is judged as it is right now; what was entered at first stays in the record, with its judgement.',
        first: 'See under the passes what was changed and why.',
      };
    case 'interpass above maximum during pass':
      return {
        what: `Interpass above the maximum${finding.probe === undefined ? '' : ` at ${finding.probe}`} within ${finding.pass === undefined ? 'a pass' : `pass ${finding.pass}`}${capped(finding, units)}`,
        why: 'Where welding goes round without a pause, the metal ahead of the arc has had no time to cool.',
        first: 'Stop and let it cool to the window; tell the coordinator what was welded above it.',
      };
    case 'interpass not judged during pass':
      return {
        what: `Interpass not judged within ${finding.pass === undefined ? 'a pass' : `pass ${finding.pass}`}: no reading in its interval`,
        why: 'The procedure asks for readings while welding goes on, ahead of the arc.',
        first: 'Take a contact reading ahead of the arc in every interval, or fit a probe that can stay there.',
      };
    case 'arc without pass':
      return {
        what: `Arc seen${finding.board === undefined ? '' : ` by ${finding.board}`}, no pass entered`,
        why: 'What was measured before that arc was judged for no pass, so that nobody can say that it was warm enough.',
        first: 'Enter the pass with the time at which the arc was seen, or say in a note what else burnt there.',
      };
  }
};

const numbers = ({ value, limit }: Finding, units: UnitSystem, side: string): string => {
  if (value === undefined) return '';
  const bound = limit as JoulesPerMetre | undefined;
  const energy = energyText(value as JoulesPerMetre, units, bound);
  return bound === undefined ? `: ${energy}` : `: ${energy}, ${side} ${energyText(bound, units)}`;
};
