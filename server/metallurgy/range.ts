/**
 * Range of validity of a method, as data: what is bounded, and whether a value outside is refused (no
 * number) or extended (computed, flagged, governs only once a named person accepts it). Ends are inside.
 */
import type { Status } from './answer.ts';
import { plain, steady } from './number.ts';

export type Grade = 'refused' | 'extended';

export interface Range {
  /** Name in words, and the letter that the formula uses. */
  readonly quantity: string;
  readonly symbol: string;
  readonly unit: string;
  readonly minimum: number;
  readonly maximum: number;
  readonly below: Grade;
  readonly above: Grade;
  readonly status: Status;
}

export interface Outside {
  readonly grade: Grade;
  readonly words: string;
}

/** All ranges that the values leave, in the order of the ranges. A value that is not given is not looked at. */
export function outside(ranges: readonly Range[], values: Readonly<Record<string, number>>): readonly Outside[] {
  return ranges.flatMap((range) => {
    const value = values[range.symbol];
    if (value === undefined) return [];
    const at = steady(value);
    if (at >= range.minimum && at <= range.maximum) return [];
    const low = at < range.minimum;
    const unit = range.unit === '' ? '' : ` ${range.unit}`;
    const words = `${range.quantity} ${plain(at)}${unit} is ${low ? 'below' : 'above'} the range ${range.minimum} to ${range.maximum}${unit}${remark(range.status)}`;
    return [{ grade: low ? range.below : range.above, words }];
  });
}

const remark = (status: Status): string => (status === 'from memory' ? ' (range from memory)' : '');
