/** Joints of an invented workshop, for tests of the browser side. Nothing here was measured. */
import { type Joint, jointSchema } from '../../../server/weld/joint.ts';
import type { Probe } from '../../../server/weld/probe.ts';

const zone = (
  id: string,
  board: string,
  channel: number,
  side: 'A' | 'B',
  face: 'front' | 'back',
  distance: number,
  use: Probe['use'] = 'zone',
): Probe => ({
  id,
  board,
  channel,
  thermocouple: 'K',
  use,
  place: { part: side === 'A' ? 'web plate' : 'flange plate', side, face, distanceMillimetres: distance },
});

const analysis = {
  origin: 'heat certificate',
  certificate: 'example 2041',
  percent: {
    C: 0.17,
    Si: 0.35,
    Mn: 1.45,
    P: 0.012,
    S: 0.004,
    Cr: 0.05,
    Mo: 0.01,
    Ni: 0.05,
    Cu: 0.15,
    V: 0.005,
    Nb: 0.02,
    B: 'not reported',
  },
} as const;

/** Two thick plates, heated from the front, measured on both faces. */
export const girder: Joint = jointSchema.parse({
  format: 'preheat joint 1',
  id: 'girder-splice-7',
  title: 'Girder splice 7, lower flange',
  workshop: 'Example hall 2',
  drawing: 'EX-2041 sheet 3',
  jointType: 'plate butt',
  parts: [
    { id: 'web plate', side: 'A', grade: 'S460NL', thicknessMillimetres: 80, analyses: [analysis] },
    { id: 'flange plate', side: 'B', grade: 'S460NL', thicknessMillimetres: 60, analyses: [analysis] },
  ],
  consumable: { designation: 'example wire', hydrogen: { class: 'H5' } },
  process: '136',
  heatInput: { kilojoulesPerMillimetre: 1.6 },
  heating: { means: 'resistance pads', face: 'front', whileWelding: 'off' },
  probes: [
    zone('A1', 'board-1', 1, 'A', 'front', 75),
    zone('A2', 'board-1', 2, 'A', 'front', 150),
    zone('B1', 'board-1', 3, 'B', 'front', 75),
    zone('B2', 'board-1', 4, 'B', 'front', 150),
    zone('A3', 'board-1', 5, 'A', 'back', 75, 'opposite face'),
    zone('B3', 'board-1', 6, 'B', 'back', 75, 'opposite face'),
    zone('W1', 'board-1', 7, 'A', 'front', 10, 'interpass'),
    { id: 'Pad', board: 'board-1', channel: 8, thermocouple: 'K', use: 'heater control' },
  ],
  procedure: {
    id: 'WPS 118',
    revision: 'C',
    preheatMinimumCelsius: 150,
    interpassMaximumCelsius: 250,
    maintenanceMinimumCelsius: 120,
    highestCelsius: 300,
    decisionRule: 'simple acceptance',
  },
});

export const nozzle: Joint = jointSchema.parse({
  ...girder,
  id: 'nozzle-n4',
  title: 'Nozzle N4 to shell',
  jointType: 'nozzle or branch',
  parts: [
    { id: 'shell', side: 'A', grade: 'P355NL1', thicknessMillimetres: 45, analyses: [analysis] },
    { id: 'nozzle', side: 'B', grade: 'P355NL1', thicknessMillimetres: 30, analyses: [] },
  ],
  probes: [
    {
      ...zone('S1', 'board-2', 1, 'A', 'front', 50),
      place: { part: 'shell', side: 'A', face: 'front', distanceMillimetres: 50, clock: 3 },
    },
    {
      ...zone('S2', 'board-2', 2, 'A', 'back', 50, 'opposite face'),
      place: { part: 'shell', side: 'A', face: 'back', distanceMillimetres: 50, clock: 9 },
    },
    {
      ...zone('N1', 'board-2', 3, 'B', 'front', 50),
      place: { part: 'nozzle', side: 'B', face: 'front', distanceMillimetres: 50 },
    },
  ],
  procedure: {
    id: 'WPS 121',
    revision: 'A',
    preheatMinimumCelsius: 100,
    interpassMaximumCelsius: 220,
    decisionRule: 'simple acceptance',
  },
});

/** No procedure, an analysis with holes: the requirement has to ask. */
export const bracket: Joint = jointSchema.parse({
  ...girder,
  id: 'bracket-12',
  title: 'Lifting bracket 12',
  jointType: 'T',
  parts: [
    {
      id: 'base',
      side: 'A',
      thicknessMillimetres: 40,
      analyses: [{ origin: 'handheld X-ray', percent: { Mn: 1.3, Cr: 0.3 } }],
    },
    { id: 'ear', side: 'B', thicknessMillimetres: 30, analyses: [] },
  ],
  probes: [
    {
      id: 'E1',
      board: 'board-3',
      channel: 1,
      thermocouple: 'K',
      use: 'zone',
      place: { part: 'ear', side: 'B', face: 'front', distanceMillimetres: 75 },
    },
  ],
  procedure: undefined,
});
