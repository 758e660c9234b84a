/** What a phase asks for now, what comes after it, and when, where that can be said. */
import type { Milliseconds } from '../../measure/quantity.ts';
import type { Phase } from '../assessment.ts';

/** Each is worded with the numbers of the assessment that it stands in. */
export type Required =
  | 'check the probes'
  | 'answer the checks'
  | 'release the points'
  | 'heat on'
  | 'every place at the minimum'
  | 'heat off and wait'
  | 'hold'
  | 'warm through and held'
  | 'other conditions'
  | 'keep the minimum'
  | 'stay below the highest'
  | 'cool to the maximum'
  | 'keep warm in the break'
  | 'what the break asks for'
  | 'keep the minimum until post-heating'
  | 'hold the post-heating'
  | 'end the post-heating'
  | 'keep the cover on'
  | 'cool no faster'
  | 'cool before heat treatment'
  | 'cool to ambient'
  | 'no test yet'
  | 'examine the spots'
  | 'begin heat treatment'
  | 'close the joint';

export interface Ahead {
  readonly required: readonly Required[];
  /** What usually comes next; absent after the last. */
  readonly next?: Phase;
  readonly when?: {
    /** comes: until the next phase can come. ends: until what is kept now is lost. */
    readonly what: 'comes' | 'ends';
    readonly time: Milliseconds;
    /** by time: a time that runs out. by trend: if it goes on as in the last minutes. */
    readonly by: 'time' | 'trend';
  };
}
