/** Where a probe sits, shorter than words: for drawings and narrow tables. */
import type { Place } from '../../server/weld/probe.ts';

/** "A front 75 mm". */
export const placeMark = ({ side, face, distanceMillimetres, clock }: Place): string =>
  `${side} ${face} ${distanceMillimetres} mm${clock === undefined ? '' : `, ${clock} o'clock`}`;
