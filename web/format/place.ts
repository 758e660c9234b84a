/** Where a probe sits, shorter than words: for drawings and narrow tables. */
import type { UnitSystem } from '../../server/measure/units.ts';
import type { Place } from '../../server/weld/probe.ts';
import { lengthText } from '../../server/wording/length.ts';

/** "A front 75 mm". */
export const placeMark = ({ side, face, distanceMillimetres, clock }: Place, units: UnitSystem): string =>
  `${side} ${face} ${lengthText(distanceMillimetres, units)}${clock === undefined ? '' : `, ${clock} o'clock`}`;
