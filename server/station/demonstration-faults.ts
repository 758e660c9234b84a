/**
 * What goes wrong in the demonstration, for the station to name: a tip that nothing hangs on while no arc burns comes off
 * the part, and the number of the probe in the air stands still. The probes that the minimum is judged by stay sound.
 */
import type { Mishap } from '../../firmware-protocol/emulator/mishaps/mishap.ts';
import type { Joint } from '../weld/joint.ts';

/** Minutes after the heat goes on: the parts are hot enough for a fall to be seen, and there is time left to see it. */
const afterHeat = { stuck: 12, detached: 38 };

/** `heatAfterMinutes`: from the board's start to the heat. A joint without such probes has no such faults. */
export function demonstrationFaults({ probes }: Joint, heatAfterMinutes: number): Mishap[] {
  const air = probes.find(({ use }) => use === 'ambient');
  const loose = probes.findLast(({ use }) => use === 'interpass');
  const from = (minutes: number): number => (heatAfterMinutes + minutes) * 60;
  return [
    ...(air === undefined
      ? []
      : [{ kind: 'stuck', channel: air.channel, fromSeconds: from(afterHeat.stuck) } satisfies Mishap]),
    ...(loose === undefined
      ? []
      : [{ kind: 'detached', channel: loose.channel, fromSeconds: from(afterHeat.detached) } satisfies Mishap]),
  ];
}
