/**
 * A view laid out on a sheet of a given width: one scale, each probe with a label of its own, labels apart
 * from each other, leaders from label to place. In the outlet's own unit: pixels on the screen, points on paper.
 */
import { around } from './around.ts';
import { flat } from './flat.ts';
import type { Sheet, SheetSize } from './shapes.ts';
import { upright } from './upright.ts';
import type { View } from './view.ts';

export const sheetOf = (view: View, size: SheetSize): Sheet =>
  view.arrangement === 'flat'
    ? flat(view, size)
    : view.arrangement === 'upright'
      ? upright(view, size)
      : around(view, size);
