/** What became of readings that did not come when they were due, in one sentence. */
import type { StationEvent } from '../weld/entry.ts';

type Hole = StationEvent & { readonly kind: 'hole' };

const becauseOf: Readonly<Record<Exclude<Hole['fate'], 'sent again' | 'board started again'>, string>> = {
  'no longer kept': 'the board does not keep them any more',
  'not sent again': 'the board did not send them again',
};

/** "10 readings of board PB-0001 came late, sent again by the board (sequence 17 to 26)". */
export function holeText({ board, from, to, came, lost = 0, fate }: Hole): string {
  if (fate === 'board started again' && to === undefined) {
    return `Board ${board} started again: what it measured after sequence ${from - 1}, until it was up again, is lost`;
  }
  const numbers = to === undefined || to === from ? `sequence ${from}` : `sequence ${from} to ${to}`;
  const late = came === 0 ? [] : [`${readings(came)} of board ${board} came late, sent again by the board`];
  const gone =
    lost === 0 ? [] : [`${readings(lost)} of board ${board} ${lost === 1 ? 'is' : 'are'} lost: ${reasonOf(fate)}`];
  return `${[...late, ...gone].join('; ')} (${numbers})`;
}

const readings = (count: number): string => (count === 1 ? '1 reading' : `${count} readings`);

const reasonOf = (fate: Hole['fate']): string =>
  fate === 'board started again'
    ? 'the board started again and keeps nothing from before'
    : fate === 'sent again'
      ? 'they were damaged each time'
      : becauseOf[fate];
