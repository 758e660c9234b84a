/** What is wrong with a link, and what to do, from what was counted. Pure. Bounds are own choices: from there on a person should look. */
import type { ReadCounts } from '../wire/connection/open-connection.ts';
import type { BoardCounts } from '../wire/serial-link.ts';

export interface LinkFacts {
  readonly state: 'opening' | 'waiting for hello' | 'open' | 'lost' | 'refused';
  readonly cause: string;
  readonly advice?: string;
  readonly leftAlone: boolean;
  readonly counts: Pick<BoardCounts, 'linesGood' | 'linesBad' | 'linesMissing'> & Partial<BoardCounts>;
  /** Of an instrument that is no board: nothing is asked for again, and what went wrong has its own names. */
  readonly read?: ReadCounts;
}

const damagedShare = 0.01;
const lossesToTell = 3;

const triedAgain =
  'Check the cable and its plugs at both ends. The station goes on trying; nothing has to be restarted.';
const withoutAdvice: Partial<Record<LinkFacts['state'], string>> = {
  'waiting for hello': 'The board is asked who it is; nothing is read before its answer.',
  lost: triedAgain,
  refused: triedAgain,
};

/** Most urgent first; empty where all is well. What was counted is told of the last hour where the link knows it. */
export function plainWords({ state, cause, advice, leftAlone, counts, read }: LinkFacts): string[] {
  const words: string[] = [];
  const toDo = advice ?? (read === undefined ? withoutAdvice[state] : undefined);
  if (state !== 'open') words.push([`${begun(cause)}.`, toDo].filter((each) => each !== undefined).join(' '));
  if (leftAlone) words.push('It is not tried again until it is plugged in anew or somebody presses "Try again".');
  const { lately } = counts;
  const { linesGood, linesBad, linesMissing, losses = 0 } = lately ?? counts;
  const echoes = lately?.echoes ?? counts.faults?.['our own words'] ?? 0;
  const when = lately === undefined ? '' : ' in the last hour';
  const all = linesGood + linesBad;
  const areMany = linesBad > 5 && linesBad > all * damagedShare;
  if (read !== undefined) return areMany ? [...words, troubleText(read)] : words;
  // What comes from something that is no board of this station says nothing of a cable.
  if (leftAlone) return words;
  if (losses >= lossesToTell)
    words.push(
      `The connection was lost ${losses} times${when}. Near an arc that is mostly noise: lead the cable away from welding cables, use a short shielded one with ferrites, an isolator for USB, or a powered hub of good make.`,
    );
  if (echoes > 0)
    words.push(
      'What the station sends comes back: the cable or a plug joins sending and receiving. Look for a bridge.',
    );
  if (areMany && counts.linesGood > 0)
    words.push(
      `${linesBad} of ${all} lines came damaged or were not taken${when}. What the board keeps is asked for again; if this goes on, look at the cable, its plugs and its way past the arc.`,
    );
  if (linesMissing > 0)
    words.push(
      `${linesMissing} ${linesMissing === 1 ? 'reading has' : 'readings have'} not come${when}; those that the board keeps are asked for again, and the record names the others.`,
    );
  return words;
}

const troubleText = ({ good, errors, last }: ReadCounts): string =>
  `Since the start ${good} were read well; besides: ${errors.map(({ what, times }) => `${what} ${times}`).join(', ')}. The last trouble: ${last}.`;

const begun = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
