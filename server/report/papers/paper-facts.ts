/** What the two single papers of a joint are made from: the working page and the set-up card. Plain data, nothing of it worded. */
import type { Instant } from '../../measure/quantity.ts';
import type { Explanation } from '../../metallurgy/explanation.ts';
import type { Source } from '../../weld/entry.ts';
import type { Joint } from '../../weld/joint.ts';
import { sourceMark } from '../../wording/words.ts';

export interface PaperFacts {
  readonly joint: Joint;
  readonly explanation: Explanation;
  /** What the joint stands in: "Record ring-seam-4, entry 12, head 3f2a...", or a file. Printed at the foot of every page. */
  readonly standsIn: string;
  /** What the readings of the joint are; marked on the paper where it is not a plain measurement. Absent for a file. */
  readonly source?: Source;
  /** Of the newest entry, or of the file. The paper is dated by it, so that the same facts give the same bytes. */
  readonly datedAt: Instant;
  /** Address of the joint's page as a browser reaches it. Absent where no station is known. */
  readonly address?: string;
}

/** The mark of a joint whose readings are not plain measurements; it stands on every page of paper. */
export const sourceMarks = ({ source }: PaperFacts): string[] => {
  const mark = source === undefined ? undefined : sourceMark(source);
  return mark === undefined ? [] : [mark.toUpperCase()];
};
