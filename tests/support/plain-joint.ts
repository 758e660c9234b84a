/** A joint that is plain in every respect, for tests to change one thing of. Its method B value is 143.735 °C (scenario S1). */
import type { Analysis } from '../../server/weld/composition.ts';
import { type Joint, jointSchema } from '../../server/weld/joint.ts';

export const plainAnalysis: Analysis = {
  origin: 'heat certificate',
  certificate: 'C-1',
  percent: {
    C: 0.17,
    Si: 0.35,
    Mn: 1.45,
    Cr: 0.05,
    Mo: 0.01,
    V: 0.005,
    Ni: 0.05,
    Cu: 0.15,
    Nb: 0.02,
    Ti: 0.003,
    B: 0,
  },
};

export const plainJoint = (changes: Partial<Joint> = {}): Joint =>
  jointSchema.parse({
    format: 'preheat joint 1',
    id: 'plain',
    title: 'Plain joint',
    jointType: 'plate butt',
    parts: [
      {
        id: 'plate',
        side: 'both',
        thicknessMillimetres: 80,
        analyses: [plainAnalysis],
      },
    ],
    consumable: { hydrogen: { millilitresPer100Grams: 5 } },
    process: '135',
    heatInput: { kilojoulesPerMillimetre: 1.5 },
    heating: { means: 'resistance pads', face: 'front', whileWelding: 'off' },
    probes: [],
    ...changes,
  });

/** The plain part with some contents, thickness or analyses changed. */
export const plainPart = (changes: Partial<Joint['parts'][number]> = {}): Joint['parts'][number] => ({
  id: 'plate',
  side: 'both',
  thicknessMillimetres: 80,
  analyses: [plainAnalysis],
  ...changes,
});

export const withPercent = (percent: Analysis['percent']): Analysis => ({
  ...plainAnalysis,
  percent: { ...plainAnalysis.percent, ...percent },
});

export const plainProcedure: NonNullable<Joint['procedure']> = {
  id: 'WPS-1',
  revision: '0',
  preheatMinimumCelsius: 150,
  interpassMaximumCelsius: 250,
  decisionRule: 'simple acceptance',
};
