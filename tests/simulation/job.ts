/** The joint that is heated and welded in the simulation: three zone probes opposite the heat, one at the groove. */
import type { Joint } from '../../server/weld/joint.ts';
import { plainJoint, plainPart } from '../support/plain-joint.ts';

export const minimumCelsius = 60;
export const channels = [1, 2, 3, 4] as const;
export const boardName = 'SIM-1';

export const simulatedJoint: Joint = plainJoint({
  id: 'sim',
  parts: [plainPart({ thicknessMillimetres: 20 })],
  procedure: {
    id: 'P-60',
    revision: '0',
    preheatMinimumCelsius: minimumCelsius,
    interpassMaximumCelsius: 140,
    highestCelsius: 200,
    decisionRule: 'simple acceptance',
  },
  probes: channels.map((channel) => ({
    id: `T${channel}`,
    board: boardName,
    channel,
    thermocouple: 'K' as const,
    use: channel === 4 ? ('interpass' as const) : ('zone' as const),
    place: {
      part: 'plate',
      side: channel % 2 === 0 ? ('B' as const) : ('A' as const),
      face: 'back' as const,
      distanceMillimetres: channel === 4 ? 10 : 75,
    },
  })),
});
