/** A joint of an invented workshop for reports: thick butt weld, one board, a procedure; any field can be replaced. */
import { type Joint, jointSchema } from '../../server/weld/joint.ts';

export const fixtureJoint = (change: Readonly<Record<string, unknown>> = {}): Joint =>
  jointSchema.parse({
    format: 'preheat joint 1',
    id: 'ring-seam-4',
    title: 'Ring seam 4 of the press cylinder',
    workshop: 'Fabryka Próbna, hala 2',
    drawing: 'PC-1180-04 rev C',
    jointType: 'plate butt',
    process: '121',
    parts: [
      {
        id: 'shell course 2',
        side: 'A',
        grade: 'S355 type',
        thicknessMillimetres: 80,
        analyses: [analysis('H-70881')],
      },
      {
        id: 'shell course 3',
        side: 'B',
        grade: 'S355 type',
        thicknessMillimetres: 80,
        analyses: [analysis('H-70902')],
      },
    ],
    consumable: { designation: 'wire and flux, dried', hydrogen: { class: 'H5' } },
    heatInput: { kilojoulesPerMillimetre: 2.2 },
    heating: { means: 'resistance pads', face: 'back', whileWelding: 'on' },
    probes: probes(8, ['PB-0041']),
    procedure: {
      id: 'WP-12',
      revision: '3',
      preheatMinimumCelsius: 150,
      interpassMaximumCelsius: 250,
      maintenanceMinimumCelsius: 120,
      highestCelsius: 300,
      soakHoldMinutes: 20,
      decisionRule: 'simple acceptance',
    },
    ...change,
  });

const analysis = (heat: string) => ({
  origin: 'heat certificate',
  certificate: `C-${heat}`,
  heat,
  percent: {
    C: 0.18,
    Si: 0.35,
    Mn: 1.45,
    P: 0.012,
    S: 0.004,
    Cr: 0.08,
    Mo: 0.03,
    Ni: 0.12,
    Cu: 0.11,
    V: 0.01,
    Nb: 0.02,
    B: 0.0003,
  },
});

/** Zone probes at 75 mm on both faces and sides, one interpass, one at the heater, one ambient; more of the same if asked. */
export const probes = (count: number, boards: readonly string[]): unknown[] =>
  Array.from({ length: count }, (_, index) => {
    const side = index % 2 === 0 ? 'A' : 'B';
    const part = side === 'A' ? 'shell course 2' : 'shell course 3';
    const wire = { board: boards[Math.floor(index / 16)] ?? boards[0], channel: (index % 16) + 1, thermocouple: 'K' };
    if (index === count - 1) return { id: 'Amb', ...wire, use: 'ambient' };
    if (index === count - 2)
      return { id: 'H1', ...wire, use: 'heater control', place: { part, side, face: 'back', distanceMillimetres: 40 } };
    if (index === count - 3)
      return { id: 'IP', ...wire, use: 'interpass', place: { part, side, face: 'front', distanceMillimetres: 10 } };
    return {
      id: `Z${index + 1}`,
      ...wire,
      use: 'zone',
      place: {
        part,
        side,
        face: index % 4 < 3 ? 'front' : 'back',
        distanceMillimetres: 75 + 25 * Math.floor(index / 4),
      },
    };
  });
