/** The kinds of steel that can be chosen. Adding one is a file beside this and a line here. */

import type { ThermalKind } from '../../weld/part.ts';
import { austeniticSteel } from './austenitic.ts';
import { carbonSteel } from './carbon.ts';
import { chromiumSteel } from './chromium.ts';
import { lowAlloySteel } from './low-alloy.ts';
import type { Steel } from './steel.ts';

export const steels: { readonly [kind in ThermalKind]: Steel } = {
  carbon: carbonSteel,
  'low-alloy': lowAlloySteel,
  chromium: chromiumSteel,
  austenitic: austeniticSteel,
};
