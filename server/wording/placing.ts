/** Where to measure, in words: the rule, advice on each placed probe, what a drawing does not claim. */
import type { UnitSystem } from '../measure/units.ts';
import type { Advice } from '../placing/check.ts';
import {
  evenOutSeconds,
  facingSource,
  heatedDistanceOf,
  type Measuring,
  measuringOf,
  measuringSource,
} from '../placing/rules.ts';
import type { Suggestion } from '../placing/suggestion.ts';
import type { Liberty } from '../placing/view.ts';
import type { Joint } from '../weld/joint.ts';
import { lengthText } from './length.ts';
import { listText } from './list.ts';

/** "at 50 mm from the groove edge". */
const measuringText = ({ kind, distanceMillimetres }: Measuring, units: UnitSystem): string =>
  kind === 'at'
    ? `at ${lengthText(distanceMillimetres, units)} from the groove edge`
    : `over at least ${lengthText(distanceMillimetres, units)} from the groove edge in every direction`;

/** The rules for this joint, one sentence each, with source and status. */
export const measuringRules = (joint: Joint): string[] => {
  const units = joint.units ?? 'metric';
  const thickest = Math.max(0, ...joint.parts.map((part) => part.thicknessMillimetres));
  const byDistance = new Map<string, string[]>();
  for (const part of joint.parts) {
    const words = measuringText(measuringOf(part.thicknessMillimetres), units);
    byDistance.set(words, [...(byDistance.get(words) ?? []), part.id]);
  }
  const heated = heatedDistanceOf(joint);
  return [
    ...[...byDistance].map(
      ([words, parts]) => `Measure ${listText(parts)} ${words} (${measuringSource.source}, ${measuringSource.status}).`,
    ),
    `${faceRule(joint)} (${facingSource.source}, ${facingSource.status}).`,
    `After heat off wait ${waitText(evenOutSeconds(thickest))} before reading a heated face: 2 min for each ${lengthText(25, units)} (${facingSource.status}).`,
    heated === undefined
      ? 'How far to heat goes by the code: choose the code of the job, or follow the procedure.'
      : `Heat at least ${lengthText(heated.distanceMillimetres, units)} from the groove edge (${heated.source}, ${heated.status}: ${inUnits(heated.rule, units)}).`,
  ];
};

const faceRule = ({ heating: { face } }: Joint): string => {
  if (face === 'front')
    return 'Measure on the back face where it can be reached, opposite the heat; else on the front face with the heat off';
  if (face === 'back') return 'Measure on the front face, toward the welder and opposite the heat';
  return 'Both faces are heated: measure on the front face, toward the welder, with the heat off';
};

/** "9 min 36 s". */
const waitText = (seconds: number): string => {
  const whole = Math.ceil(seconds - 1e-9);
  const [minutes, rest] = [Math.floor(whole / 60), whole % 60];
  return [minutes === 0 ? '' : `${minutes} min`, rest === 0 ? '' : `${rest} s`].filter((text) => text !== '').join(' ');
};

/** Millimetres that stand in a rule's own words. */
const inUnits = (rule: string, units: UnitSystem): string =>
  rule.replace(/(\d+) mm/g, (_all, length: string) => lengthText(Number(length), units));

export const adviceText = (advice: Advice, units: UnitSystem): string => {
  switch (advice.kind) {
    case 'right':
      return `${advice.probe}: placed as the rules measure.`;
    case 'too near':
      return `${advice.probe}: too near, ${lengthText(advice.distanceMillimetres, units)}; measure ${measuringText(advice.wanted, units)}.`;
    case 'too far':
      return `${advice.probe}: too far out, ${lengthText(advice.distanceMillimetres, units)}; measure ${measuringText(advice.wanted, units)}.`;
    case 'wrong face':
      return advice.wanted === undefined
        ? `${advice.probe}: the ${advice.face} face is heated, and no face lies opposite the heat.`
        : `${advice.probe}: wrong face, ${advice.face}; measure on the ${advice.wanted} face.`;
    case 'heated face': {
      const better = advice.better === undefined ? '' : ` The ${advice.better} face is better where it can be reached.`;
      return `${advice.probe}: on the heated face; read it only with the heat off for ${waitText(advice.waitSeconds)}.${better}`;
    }
    case 'not beside the weld':
      return `${advice.probe}: ${lengthText(advice.distanceMillimetres, units)} from the groove edge is not beside the weld, where interpass is read.`;
    case 'missing side':
      return `Side ${advice.side} has no zone probe${advice.wanted.kind === 'at' ? '' : ' at the edge of its zone'}; measure ${measuringText(advice.wanted, units)}.`;
    case 'no interpass place':
      return 'No probe reads interpass beside the weld: a contact reading has to be entered before each pass.';
  }
};

export const usualPlacesText = ({ places, asks }: Suggestion, units: UnitSystem): string => {
  const remark = 'Common practice; how many are needed is for the procedure to say.';
  if (asks !== undefined) return `Enter the outside diameter of ${asks} to see usual clock positions. ${remark}`;
  const bySide = (['A', 'B'] as const).flatMap((side) => {
    const own = places.filter((place) => place.side === side);
    const [first] = own;
    if (first === undefined) return [];
    const clocks = own.flatMap(({ clock }) => (clock === undefined ? [] : [`${clock}`]));
    const at = clocks.length === 0 ? '' : `, at ${listText(clocks)} o'clock`;
    return [`side ${side} ${first.face} face at ${lengthText(first.distanceMillimetres, units)}${at}`];
  });
  return bySide.length === 0 ? '' : `Usual zone places: ${bySide.join('; ')}. ${remark}`;
};

/** What the drawing takes liberties with, and what to enter so that it need not. */
export const libertyText = (liberty: Liberty): string => {
  switch (liberty.kind) {
    case 'groove schematic':
      return 'Thickness and distances are to one scale; groove and weld are schematic.';
    case 'diameter missing':
      return `The circle is schematic: the outside diameter of ${liberty.part} is not stated. Enter it.`;
    case 'positions along the weld':
      return 'Positions along the weld are not stated: probes of one side are spread evenly.';
    case 'cavity schematic':
      return 'The size of the repair is schematic.';
    case 'clock missing':
      return `Without a clock position and so not in the plan: ${listText(liberty.probes)}. Enter it.`;
    case 'beyond':
      return `Further out than drawn: ${listText(liberty.probes)}.`;
    case 'not drawn':
      return `Not drawn: ${listText(liberty.parts.map((part) => `part ${part}`))}.`;
  }
};
