/** A board for a joint that is run and not played: the reference firmware in a simulated processor. */
import { readFileSync } from 'node:fs';
import { createFirmwareBoard, type FirmwareBoard } from '../../firmware-protocol/simulator/firmware-board.ts';
import { readImage } from '../../firmware-protocol/simulator/image.ts';
import { boardOptionsOf } from './joint-board.ts';

/** The firmware of that image file. It measures no faster than each 300 ms, and has eight channels at most. */
export const firmwareBoardOf = (image: URL, ...asked: Parameters<typeof boardOptionsOf>): FirmwareBoard =>
  createFirmwareBoard({ ...boardOptionsOf(...asked), image: readImage(readFileSync(image, 'utf8')) });
