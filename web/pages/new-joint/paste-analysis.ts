/** Reads a line of an analysis as it stands on certificates: "C 0.17 Si 0,35 Mn 1.45 Nb <0.005 B n.r.". Words that are not elements are left alone. */
import { elements } from '../../../server/weld/composition.ts';
import type { AnalysisDraft, ContentDraft } from './draft.ts';

export interface PastedAnalysis {
  readonly contents: AnalysisDraft['contents'];
  /** Symbols that were read, in the order of the text. */
  readonly read: readonly string[];
}

const pair = new RegExp(
  `(?<![A-Za-z])(${[...elements].sort((a, b) => b.length - a.length).join('|')})\\s*[%:=]*\\s*(?:(<=?|\u2264|max\\.?)?\\s*(\\d+(?:[.,]\\d+)?|[.,]\\d+)|(n\\.?\\s?r\\.?|not reported|-{1,2}|\u2013))(?![A-Za-z0-9])`,
  'g',
);

export const readAnalysis = (text: string): PastedAnalysis => {
  const contents: Record<string, ContentDraft> = {};
  const read: string[] = [];
  for (const [, element, bound, number] of text.matchAll(pair)) {
    if (element === undefined) continue;
    read.push(element);
    contents[element] =
      number === undefined
        ? { how: 'not reported', text: '' }
        : { how: bound === undefined ? 'reported' : 'at most', text: number };
  }
  return { contents, read };
};
