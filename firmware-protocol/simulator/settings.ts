/** The memory of a board that keeps without power, as board/core/settings.c lays it out; and a new chip's, which is empty. */
import { crc16 } from '../codec/check.ts';
import type { ThermocoupleLetter } from '../codec/frame.ts';

export interface BoardSettings {
  readonly identity: string;
  readonly periodMilliseconds: number;
  readonly thermocouples: readonly ThermocoupleLetter[];
  readonly mainsHertz: 50 | 60;
  readonly simulated: boolean;
  /** Starts that it has counted; none if not given. */
  readonly starts?: number;
}

export const memoryBytes = 1_024;
const version = 1;
const places = { bits: 1, period: 2, channels: 4, types: 5, identity: 13, check: 45, starts: 64 } as const;
const [simulatedBit, sixtyHertzBit] = [1, 2];
const channelsMaximum = 8;

export function settingsMemory(settings: BoardSettings): Uint8Array {
  const { identity, periodMilliseconds, thermocouples } = settings;
  if (thermocouples.length < 1 || thermocouples.length > channelsMaximum) {
    throw new RangeError(`a board has 1 to ${channelsMaximum} channels, not ${thermocouples.length}`);
  }
  const memory = new Uint8Array(memoryBytes).fill(0xff);
  memory.fill(0, 0, places.check);
  memory[0] = version;
  memory[places.bits] = (settings.simulated ? simulatedBit : 0) | (settings.mainsHertz === 60 ? sixtyHertzBit : 0);
  memory[places.period] = periodMilliseconds & 0xff;
  memory[places.period + 1] = periodMilliseconds >> 8;
  memory[places.channels] = thermocouples.length;
  for (let index = 0; index < channelsMaximum; index += 1) {
    memory[places.types + index] = (thermocouples[index] ?? 'K').charCodeAt(0);
  }
  for (let index = 0; index < identity.length; index += 1) memory[places.identity + index] = identity.charCodeAt(index);
  const check = crc16(String.fromCharCode(...memory.subarray(0, places.check)));
  memory[places.check] = check & 0xff;
  memory[places.check + 1] = check >> 8;
  if (settings.starts !== undefined) countStarts(memory, settings.starts);
  return memory;
}

/** In the first of the two places that are written in turn. */
function countStarts(memory: Uint8Array, starts: number): void {
  const view = new DataView(memory.buffer, memory.byteOffset + places.starts);
  view.setUint32(0, starts, true);
  const counted = memory.subarray(places.starts, places.starts + 4);
  view.setUint16(4, crc16(String.fromCharCode(...counted)), true);
}
