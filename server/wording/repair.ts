/** A repair in words: its background for screen and paper, and what its being open means for the joint that it mends. */
import type { UnitSystem } from '../measure/units.ts';
import type { RepairOf } from '../weld/repair.ts';
import { lengthText } from './length.ts';
import { begun } from './list.ts';

export const repairLines = (
  { joint, found, metal, cause, excavation, heatTreatment, preheatWidthMillimetres }: RepairOf,
  units: UnitSystem,
): readonly { readonly name: string; readonly text: string }[] => {
  const { method, depthMillimetres, lengthMillimetres, examinedBy, result } = excavation;
  return [
    { name: 'Repair of', text: joint },
    { name: 'Found', text: found },
    { name: 'Metal', text: begun(metal) },
    { name: 'Cause', text: cause },
    {
      name: 'Excavation',
      text: `${begun(method)}, ${lengthText(depthMillimetres, units)} deep, ${lengthText(lengthMillimetres, units)} long; ${result} (${examinedBy})`,
    },
    { name: 'Heat treatment', text: `Before: ${heatTreatment.before}. After: ${heatTreatment.after}` },
    {
      name: 'Preheat reaches',
      text: `${lengthText(preheatWidthMillimetres, units)} from the excavation in every direction`,
    },
  ];
};

/** "Repair ring-seam-4-r1 (Repair of ring seam 4), open". */
export const repairText = ({
  id,
  title,
  state,
}: {
  readonly id: string;
  readonly title: string;
  readonly state: string;
}): string => `${id} (${title}), ${state}`;

/** Undefined where all repairs are closed. */
export const unsettledText = (
  repairs: readonly { readonly id: string; readonly state: string }[],
): string | undefined => {
  const open = repairs.filter(({ state }) => state === 'open').map(({ id }) => id);
  return open.length === 0
    ? undefined
    : `Not settled: ${open.length === 1 ? `repair ${open[0]} is` : `repairs ${open.join(', ')} are`} still open`;
};
