/**
 * One emulated job, made once: two plates of 60 mm with eight probes, heated by pads, held, and welded in three passes.
 * Faults are done to its signals afterwards, so that the heat is not computed anew for each.
 */
import { createBoard } from '../../../firmware-protocol/emulator/board.ts';
import type { Signals } from '../../../firmware-protocol/emulator/signal.ts';
import { type Joint, jointSchema } from '../../../server/weld/joint.ts';
import { plainJoint, plainPart } from '../plain-joint.ts';

export const boardName = 'board-1';

const places = [
  { id: 'A1', use: 'zone', side: 'A', face: 'front', distanceMillimetres: 75 },
  { id: 'A2', use: 'spare', side: 'A', face: 'front', distanceMillimetres: 78 },
  { id: 'B1', use: 'zone', side: 'B', face: 'front', distanceMillimetres: 75 },
  { id: 'B2', use: 'zone', side: 'B', face: 'front', distanceMillimetres: 110 },
  { id: 'A6', use: 'opposite face', side: 'A', face: 'back', distanceMillimetres: 75 },
  { id: 'B6', use: 'opposite face', side: 'B', face: 'back', distanceMillimetres: 75 },
  { id: 'I1', use: 'interpass', side: 'A', face: 'front', distanceMillimetres: 15 },
] as const;

export const joint: Joint = jointSchema.parse({
  ...plainJoint(),
  jointType: 'plate butt',
  parts: [
    plainPart({ id: 'plate A', side: 'A', thicknessMillimetres: 60 }),
    plainPart({ id: 'plate B', side: 'B', thicknessMillimetres: 60 }),
  ],
  heating: { means: 'resistance pads', face: 'front', whileWelding: 'off', halfWidthMillimetres: 220, airCelsius: 20 },
  probes: [
    ...places.map(({ id, use, side, face, distanceMillimetres }, index) => ({
      id,
      use,
      board: boardName,
      channel: index + 1,
      thermocouple: 'K',
      place: { part: `plate ${side}`, side, face, distanceMillimetres },
    })),
    { id: 'AIR', use: 'ambient', board: boardName, channel: 8, thermocouple: 'K' },
  ],
});

/** When it is heated, held and welded, seconds, and when a fault comes in each. */
export const times = {
  heatOn: 300,
  heldFrom: 4200,
  heatOff: 6000,
  passes: [
    [6300, 6540],
    [6660, 6900],
    [7020, 7260],
  ],
  end: 7500,
} as const;
export const faultAt = { heating: 2400, soak: 5100, welding: 6200 } as const;
export type Stage = keyof typeof faultAt;

export interface RunOptions {
  readonly seed: number;
  readonly setPointCelsius?: number;
  readonly wattsPerSquareMetre?: readonly [number, number];
  readonly thicknessMillimetres?: number;
  readonly ambientCelsius?: number;
  readonly periodMilliseconds?: number;
}

/** A moment for each reading. */
export function thermalRun(options: RunOptions): Signals[] {
  const { seed, setPointCelsius = 160, wattsPerSquareMetre = [18_000, 17_000] } = options;
  const run: Signals[] = [];
  const board = createBoard({
    identity: boardName,
    seed,
    periodMilliseconds: options.periodMilliseconds ?? 1000,
    parts: wattsPerSquareMetre.map((heaterWattsPerSquareMetre) => ({
      thicknessMillimetres: options.thicknessMillimetres ?? 60,
      ambientCelsius: options.ambientCelsius ?? 20,
      heaterWattsPerSquareMetre,
    })),
    channels: [
      ...places.map(({ side, face, distanceMillimetres }, index) => ({
        channel: index + 1,
        thermocouple: 'K' as const,
        where: {
          at: 'part' as const,
          part: side === 'A' ? 0 : 1,
          depth: face === 'front' ? 0 : 1,
          distanceMillimetres,
        },
      })),
      { channel: 8, thermocouple: 'K', where: { at: 'air' } },
    ],
    onSignals: (signals) => run.push(signals),
  });
  const until = (second: number): void => {
    board.advance(second * 1000 - now);
    now = second * 1000;
  };
  let now = 0;
  until(times.heatOn);
  board.heater({ on: true, setPointCelsius });
  until(times.heatOff);
  board.heater({ on: false, setPointCelsius });
  for (const [from, to] of times.passes) {
    until(from);
    board.arc(true);
    until(to);
    board.arc(false);
  }
  until(times.end);
  return run;
}
