/** Sixteen thermocouples on one board, and a joint that has them all: the largest ordinary set-up. */
import { type Board, createBoard } from '../../firmware-protocol/emulator/board.ts';
import { type Joint, jointSchema } from '../../server/weld/joint.ts';
import { plainJoint } from '../support/plain-joint.ts';

export const boardName = 'board-16';
export const channels: readonly number[] = Array.from({ length: 16 }, (_, index) => index + 1);
export const probeName = (channel: number): string => `P${channel}`;

export const sixteenChannelBoard = (periodMilliseconds: number): Board =>
  createBoard({
    identity: boardName,
    seed: 16,
    periodMilliseconds,
    channels: channels.map((channel) => ({
      channel,
      thermocouple: 'K',
      where: { at: 'part', depth: channel % 2, distanceMillimetres: 75 },
    })),
  });

export const sixteenChannelJoint = (): Joint =>
  jointSchema.parse({
    ...plainJoint(),
    id: 'bench-joint',
    probes: channels.map((channel) => ({
      id: probeName(channel),
      board: boardName,
      channel,
      thermocouple: 'K',
      use: channel % 2 === 0 ? 'zone' : 'opposite face',
      place: {
        part: 'plate',
        side: channel % 4 < 2 ? 'A' : 'B',
        face: channel % 2 === 0 ? 'front' : 'back',
        distanceMillimetres: 75,
      },
    })),
  });
