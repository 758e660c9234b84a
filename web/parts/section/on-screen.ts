/** Section and plan on the screen: sizes in pixels, names cut to the room there is. Pure. */
import type { UnitSystem } from '../../../server/measure/units.ts';
import { planOf } from '../../../server/placing/plan.ts';
import { sectionOf } from '../../../server/placing/section.ts';
import type { Sheet } from '../../../server/placing/shapes.ts';
import { sheetOf } from '../../../server/placing/sheet.ts';
import type { Steel, View } from '../../../server/placing/view.ts';
import type { Joint } from '../../../server/weld/joint.ts';
import type { Probe } from '../../../server/weld/probe.ts';
import { lengthText } from '../../../server/wording/length.ts';

export const labelHeight = 62;

export const sectionSheet = (joint: Joint, width: number): Sheet => {
  const view = sectionOf(joint);
  return sheetOf(view, size(joint, width, view.arrangement === 'flat' ? 170 : 380));
};

export const planSheet = (joint: Joint, width: number): Sheet => {
  const view: View = planOf(joint);
  // Two columns of labels leave no drawing on a phone: there they stand under each other on either side of half.
  return sheetOf(view, { ...size(joint, width, 340), ...(width < narrowBelow ? narrow : {}) });
};

const narrowBelow = 560;
const narrow = { label: { width: 84, height: labelHeight, gap: 6 }, lead: 16 };

const size = (joint: Joint, width: number, heightMost: number) => ({
  width,
  heightMost,
  label: { width: labelWidthFor(joint.probes), height: labelHeight, gap: 8 },
  lead: 30,
  edge: 6,
});

/** A clock position makes the place of a probe longer. */
const labelWidthFor = (probes: readonly Probe[]): number =>
  probes.some((probe) => probe.place?.clock !== undefined) ? 158 : 132;

/** As much of a part's name as it has room for. About 8 px a letter at the size it is written. */
export const partName = ({ part, room }: Steel, units: UnitSystem): string => {
  if (part === undefined) return '';
  const { side, id, thicknessMillimetres } = part;
  const thick = lengthText(thicknessMillimetres, units);
  const short = side === undefined ? thick : `${side}, ${thick}`;
  const long = `${side === undefined ? '' : `${side}: `}${id}, ${thick}`;
  return long.length * 8 < room ? long : short;
};
