/**
 * The cross-section to scale, with the probes at their places, laid out for a given width in pixels. Pure:
 * the picture on the screen, and the same one while a joint is being entered, are made from it.
 */
import type { Joint } from '../../../server/weld/joint.ts';
import type { Probe } from '../../../server/weld/probe.ts';
import { flat } from './flat.ts';
import { layoutOf } from './frames.ts';
import type { Placed } from './pins.ts';
import type { Plan } from './shape.ts';
import { upright } from './upright.ts';

export const planOf = (joint: Joint, width: number): Plan => {
  const layout = layoutOf(joint);
  const placed = joint.probes.filter((probe): probe is Placed => probe.place !== undefined);
  const labelWidth = labelWidthFor(joint.probes);
  return layout.arrangement === 'flat'
    ? flat({ joint, layout, placed, width, labelWidth })
    : upright({ joint, layout, placed, width, labelWidth });
};

/** A clock position makes the place of a probe longer. */
const labelWidthFor = (probes: readonly Probe[]): number =>
  probes.some((probe) => probe.place?.clock !== undefined) ? 158 : 132;
