/** The set-up on paper: section and plan with what they show in words, for whoever cannot see them. */
import { unitsOf } from '../../measure/units.ts';
import { planOf } from '../../placing/plan.ts';
import { sectionOf } from '../../placing/section.ts';
import type { View } from '../../placing/view.ts';
import type { Joint } from '../../weld/joint.ts';
import { lengthText } from '../../wording/length.ts';
import { listText } from '../../wording/list.ts';
import { libertyText } from '../../wording/placing.ts';
import type { Block } from '../page-model.ts';
import { type DrawingSize, drawingSvg, placeMark } from './drawing-svg.ts';

type Picture = Extract<Block, { kind: 'picture' }>;

export const sectionPicture = (joint: Joint, size: DrawingSize): Picture => {
  const view = sectionOf(joint);
  const caption = [...view.liberties.map(libertyText), signs(joint, view), ...unplaced(joint)].join(' ');
  return {
    kind: 'picture',
    svg: drawingSvg(view, size, unitsOf(joint)),
    alternative: `Section of the ${joint.jointType} joint, ${heated(joint)}. ${sides(joint)}`,
    caption,
  };
};

export const planPicture = (joint: Joint, size: DrawingSize): Picture => {
  const view = planOf(joint);
  const seen = view.marks.map(({ probe: { id, place } }) => `${id} ${place.side} ${placeMark(place, unitsOf(joint))}`);
  return {
    kind: 'picture',
    svg: drawingSvg(view, size, unitsOf(joint)),
    alternative: `Plan of the ${joint.jointType} joint: ${seen.length === 0 ? 'no probe in it' : seen.join('; ')}.`,
    caption: [
      'Plan: seen onto the faces.',
      ...view.liberties.map(libertyText),
      ...(view.marks.some(({ hidden }) => hidden) ? ['Open dots: on the face that looks away.'] : []),
    ].join(' '),
  };
};

const heated = ({ heating: { face, means } }: Joint): string =>
  `heated on ${face === 'both' ? 'both faces' : `the ${face} face`} by ${means}`;

const signs = (joint: Joint, { zoneLines }: View): string =>
  `Heavy dashes: ${heated(joint)}.${zoneLines.length === 0 ? '' : ' Dots along a face: where the temperature is measured.'}`;

const unplaced = ({ probes }: Joint): string[] => {
  const names = probes.filter(({ place }) => place === undefined).map(({ id }) => id);
  return names.length === 0 ? [] : [`Without a place: ${listText(names)}.`];
};

const sides = (joint: Joint): string =>
  (['A', 'B'] as const)
    .map((side) => {
      const parts = joint.parts
        .filter((part) => part.side === side || part.side === 'both')
        .map(({ id, thicknessMillimetres: t }) => `part ${id}, ${lengthText(t, unitsOf(joint))} thick`);
      const placed = joint.probes.flatMap(({ id, place }) =>
        place?.side === side ? [`${id} ${placeMark(place, unitsOf(joint))}`] : [],
      );
      return `Side ${side}: ${parts.length === 0 ? 'no part of its own' : listText(parts)}; ${placed.length === 0 ? 'no probe' : placed.join('; ')}.`;
    })
    .join(' ');
