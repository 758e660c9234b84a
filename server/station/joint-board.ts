/** A board in software for a joint: its plates as the joint describes them, its junctions where the joint says its probes are. */
import { type Board, type BoardOptions, createBoard } from '../../firmware-protocol/emulator/board.ts';
import {
  type EmulatedPlace,
  type FaceLoss,
  noLoss,
  type PartOptions,
  stillAir,
} from '../../firmware-protocol/emulator/part.ts';
import { heatInput } from '../metallurgy/heat-input.ts';
import type { Joint } from '../weld/joint.ts';
import type { FarSide, Part } from '../weld/part.ts';
import type { Place } from '../weld/probe.ts';

export const boardOf = (...asked: Parameters<typeof boardOptionsOf>): Board => createBoard(boardOptionsOf(...asked));

/**
 * Mishaps are those of the probes, by their channels. Throws a RangeError where the joint has no probes, since a board is
 * named by them.
 */
export function boardOptionsOf(
  joint: Joint,
  periodMilliseconds = 1000,
  seed = 20,
  mishaps: BoardOptions['mishaps'] = [],
  boot = 1,
): BoardOptions {
  const [first] = joint.probes;
  if (first === undefined) throw new RangeError('a joint without probes has no board');
  const channels = joint.probes.map(({ channel, thermocouple, place }): BoardOptions['channels'][number] => ({
    channel,
    // Type B has no voltage to speak of at these temperatures, and the emulator no table of it.
    thermocouple: thermocouple === 'B' ? 'K' : thermocouple,
    where: place === undefined ? { at: 'air' } : placeOn(joint.parts, place),
  }));
  const parts = joint.parts.map((part) => partOf(joint, part));
  return { identity: first.board, seed, boot, periodMilliseconds, parts, channels, mishaps };
}

function placeOn(parts: readonly Part[], { part, face, distanceMillimetres }: Place): EmulatedPlace {
  const number = parts.findIndex(({ id }) => id === part);
  return { at: 'part', part: number, depth: face === 'front' ? 0 : 1, distanceMillimetres };
}

/** Ordinary pads at full power, and how far they reach where the joint does not say. */
const heaterWattsPerSquareMetre = 14_000;
const bandMillimetres = 220;
/** The plates of the invented workshop end so far beyond the heater. */
const beyondHeaterMillimetres = 100;

function partOf(joint: Joint, { thicknessMillimetres, farSide = 'unknown' }: Part): Partial<PartOptions> {
  const { heating, probes } = joint;
  const behind = losses[farSide];
  const stated = heatInput(joint);
  const band = heating.halfWidthMillimetres ?? bandMillimetres;
  const control = probes.find(({ use }) => use === 'heater control')?.place;
  return {
    thicknessMillimetres,
    heating: heating.means === 'gas torch' ? 'torch' : 'pads',
    heatedFace: heating.face,
    heaterWattsPerSquareMetre,
    bandMillimetres: band,
    widthMillimetres: band + beyondHeaterMillimetres,
    controlMillimetres: control?.distanceMillimetres ?? band / 2,
    frontLoss: heating.face === 'back' ? behind : stillAir,
    backLoss: heating.face === 'back' ? stillAir : behind,
    ...(stated.known ? { heatInputKilojoulesPerMillimetre: stated.input.value } : {}),
  };
}

/** What the face that is not heated gives away, in the emulated world. */
const losses: { readonly [side in FarSide]: FaceLoss } = {
  insulated: noLoss,
  'still air': stillAir,
  draught: { convectionWattsPerSquareMetreKelvin: 18, emissivity: 0.8 },
  unknown: stillAir,
  'colder mass or fluid': { convectionWattsPerSquareMetreKelvin: 200, emissivity: 0 },
};
