/** The girder of the invented workshop with what heat through its plates goes by: A with a computed far face, B measured on both. */
import { jointSchema } from '../../../server/weld/joint.ts';
import { girder } from '../../support/station/joints.ts';
import type { Script } from '../../support/station/run.ts';
import { girderScript } from '../../support/station/scripts.ts';

const [web, flange] = girder.parts;

export const wallScript: Script = {
  ...girderScript,
  joint: jointSchema.parse({
    ...girder,
    parts: [{ ...web!, farSide: 'still air' }, flange!],
    heating: { ...girder.heating, halfWidthMillimetres: 320, airCelsius: 15 },
  }),
};
