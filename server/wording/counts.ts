/** Counts, shares and spreads in words: a rate never without what it is of, and none where there are too few for one. */
import { type Milliseconds, milliseconds } from '../measure/quantity.ts';
import { durationText } from './time.ts';

interface Share {
  readonly count: number;
  readonly of: number;
  readonly rate?: number;
  readonly from?: number;
  readonly to?: number;
}
interface Spread {
  readonly n: number;
  readonly lowerQuartile?: number;
  readonly median?: number;
  readonly upperQuartile?: number;
}

/** "12 of 40"; with enough of them "12 of 40: 30 in 100 (18 to 45)". */
export const shareText = ({ count, of, rate, from, to }: Share): string =>
  rate === undefined
    ? `${count} of ${of}`
    : `${count} of ${of}: ${hundredth(rate)} in 100 (${hundredth(from!)} to ${hundredth(to!)})`;

/** "1 h 5 min (middle half 50 min to 1 h 20 min; n 12)". */
export const timesText = (spread: Spread): string =>
  spread.median === undefined
    ? 'none'
    : `${rounded(spread.median)} (middle half ${rounded(spread.lowerQuartile!)} to ${rounded(spread.upperQuartile!)}; n ${spread.n})`;

export const jointsText = (count: number): string => `${count} ${count === 1 ? 'joint' : 'joints'}`;
export const timesInAllText = (count: number): string => `${count} ${count === 1 ? 'time' : 'times'} in all`;

/** "Nothing found. 1204 joints were looked through." */
export const foundText = (found: number, searched: number): string => {
  if (searched === 0) return 'There is no joint in this record yet.';
  const through = `${jointsText(searched)} ${searched === 1 ? 'was' : 'were'} looked through.`;
  return found === 0 ? `Nothing found. ${through}` : `${jointsText(found)} found. ${through}`;
};

const hundredth = (rate: number): string => `${Math.round(rate * 100)}`;
const rounded = (time: number): string => durationText(milliseconds(time) as Milliseconds);
