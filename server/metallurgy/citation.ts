/** Where a figure comes from, how well it is known and how much it binds, in the words that are shown beside it. */
import type { Status } from './answer.ts';

export interface Citation {
  readonly source: string;
  readonly status: Status;
  /** What weight its source gives it. */
  readonly weight: 'code' | 'standard' | 'recommended practice' | 'common practice';
  /** What to know before going by it, one phrase. */
  readonly remark?: string;
}

/** "API RP 582:2016, table 4; recommended practice, verified". */
export const citationText = ({ source, status, weight, remark }: Citation): string =>
  `${source}; ${weight}, ${status}${remark === undefined ? '' : `; ${remark}`}`;
