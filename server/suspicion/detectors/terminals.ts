/**
 * The terminals jump. Every reading that is made with them shifts at once, on all channels of the board. An instrument that
 * does not tell its terminals shows it only by that.
 */
import { block } from '../history.ts';
import { numbers } from '../numbers.ts';
import type { Sighting } from '../sign.ts';
import { type Detector, middle, type Watched } from '../view.ts';

export const terminals: Detector = ({ watched }) => {
  const boards = [...new Set(watched.map(({ board }) => board))];
  return boards.flatMap((board) =>
    boardOf(
      board,
      watched.filter((each) => each.board === board),
    ),
  );
};

function boardOf(board: string, probes: readonly Watched[]): Sighting[] {
  const jumps = probes.map((each) => ({ each, jump: jumpOf(each, 'terminals') }));
  const jumped = jumps.filter(({ jump }) => Math.abs(jump) >= numbers.terminalsJump);
  if (jumped.length > 0 && jumped.length === jumps.filter(({ jump }) => !Number.isNaN(jump)).length)
    return [sighting({ board }, 'clear', middle(jumped.map(({ jump }) => jump)))];
  if (jumped.length > 0) return jumped.map(({ each, jump }) => sighting({ probe: each.probe }, 'likely', jump));
  return probes.some((each) => !Number.isNaN(block(each.history, 0, 'terminals'))) ? [] : shiftOf(board, probes);
}

/** All of at least three, cold ones and warm ones, shifted alike. */
function shiftOf(board: string, probes: readonly Watched[]): Sighting[] {
  const shifts = probes.map(
    (each) => jumpOf(each, 'mean') - (block(each.history, 2, 'mean') - block(each.history, 4, 'mean')),
  );
  if (shifts.length < 3 || shifts.some(Number.isNaN)) return [];
  const shift = middle(shifts);
  if (!(Math.abs(shift) >= numbers.boardShift)) return [];
  const alike = shifts.every((each) => Math.abs(each - shift) <= numbers.boardShiftWithin * Math.abs(shift));
  const levels = probes.map((each) => block(each.history, 0, 'mean'));
  const apart = Math.max(...levels) - Math.min(...levels) > 2 * numbers.boardShift;
  return alike && apart ? [sighting({ board }, 'possible', shift)] : [];
}

const jumpOf = ({ history }: Watched, what: 'terminals' | 'mean'): number =>
  block(history, 0, what) - block(history, 2, what);

const sighting = (
  where: { readonly board: string } | { readonly probe: string },
  sure: Sighting['sure'],
  jump: number,
): Sighting => ({ kind: 'cold-junction-jump', ...where, sure, seen: { difference: Math.round(jump) } });
