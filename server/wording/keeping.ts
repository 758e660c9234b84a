/** What was found when the record was looked at as a whole, and what to do about it. */
import { awayCountText } from './removal.ts';

export const badEntryText = (
  bad: { readonly chain: string; readonly seq: number } | undefined,
  damaged: string | undefined,
): string => {
  if (damaged !== undefined) return `the file is damaged (${damaged})`;
  return bad === undefined
    ? 'a document or a key does not fit'
    : `entry ${bad.seq} of ${bad.chain} is not as it was written`;
};

/** Of joints whose card differs. The list is derived: what was written of the joints stands. */
export const cardsText = (joints: readonly string[]): string =>
  `The search list was changed or is out of date for ${someOf(joints)}. What was recorded stands; what a search or a count says of ${joints.length === 1 ? 'this joint' : 'these joints'} may be wrong.`;

/** Told where the station has found it, which makes it again at once. */
export const cardsMadeAgainText =
  'It is made again from the chains. If nobody did this on purpose, ask who can write to the folder of the record.';

const someOf = (joints: readonly string[]): string =>
  joints.length <= 5 ? joints.join(', ') : `${joints.slice(0, 5).join(', ')} and ${joints.length - 5} more`;

export const checkedText = (
  at: string,
  { entries, fault, away }: { readonly entries: number; readonly fault?: string; readonly away?: number },
): string =>
  fault === undefined
    ? `Record checked ${at}: intact, ${entries} entries${away === undefined ? '' : `; ${awayCountText(away)}`}.`
    : `RECORD NOT INTACT, checked ${at}: ${fault}.`;

/** Stopping would lose what is measured now, and mends nothing. */
export const whatToDoNotIntact =
  'Recording goes on, and what is measured now is kept. Hand out no report or package until somebody has looked: run verify, copy the folder as it is, and compare it with an earlier copy. Tell whoever relies on this record.';

export const copiedText = (
  at: string,
  { folder, failed }: { readonly folder?: string; readonly failed?: string },
): string => (failed === undefined ? `Copy verified ${at}: ${folder}.` : `NO COPY, tried ${at}: ${failed}`);
