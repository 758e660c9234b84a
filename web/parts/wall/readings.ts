/** The present readings of the probes that drive one section, as the picture shows them at their faces. */
import type { SectionStatus } from '../../../server/judgement/inside/section-status.ts';
import type { MilliCelsius } from '../../../server/measure/quantity.ts';
import type { LiveJoint } from '../../feed/live-joint.ts';
import type { ProbeRow } from '../../state/probe-rows.ts';
import type { FaceReading } from './profile-model.ts';

/** One that is not fresh is left out: the table of probes says why. */
export const readingsOf = (
  { newest }: LiveJoint,
  { frontProbes, backProbes }: SectionStatus,
  rows: ReadonlyMap<string, ProbeRow>,
): FaceReading[] => {
  const of =
    (face: FaceReading['face']) =>
    (probe: string): FaceReading[] => {
      const row = rows.get(probe);
      const temperature = newest[probe]?.temperature as MilliCelsius | undefined;
      if (row === undefined || temperature === undefined || (row.state !== 'fresh' && row.state !== 'distrusted'))
        return [];
      return [{ probe, face, temperature, value: row.value }];
    };
  return [...frontProbes.flatMap(of('heated')), ...backProbes.flatMap(of('far'))];
};
