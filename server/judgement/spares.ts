/**
 * A spare takes over the place of a probe: it gets the use and the place, and the probe that it stands in for
 * becomes a spare. Nothing else of the joint changes, so that what was judged before stays as it was judged.
 */
import type { Joint } from '../weld/joint.ts';
import type { Place, Probe } from '../weld/probe.ts';

export interface Takeover {
  readonly spare: string;
  readonly probe: string;
  /** Where the spare sits, if elsewhere than the probe did. */
  readonly place?: Place;
}

/** The joint with every takeover in force. One whose probes a revision took out, or gave another use, is passed over. */
export function withSpares(joint: Joint, takeovers: readonly Takeover[]): Joint {
  return takeovers.reduce(applied, joint);
}

function applied(joint: Joint, { spare, probe, place }: Takeover): Joint {
  const left = joint.probes.find((each) => each.id === probe);
  const taken = joint.probes.find((each) => each.id === spare);
  if (left === undefined || taken?.use !== 'spare') return joint;
  const where = place ?? left.place;
  return {
    ...joint,
    probes: joint.probes.map((each): Probe => {
      if (each.id === probe) return { ...each, use: 'spare' };
      if (each.id !== spare) return each;
      const { place: _before, ...wire } = each;
      return { ...wire, use: left.use, ...(where === undefined ? {} : { place: where }) };
    }),
  };
}
