/** What was found when the record was looked at as a whole, and what to do about it. */

export const badEntryText = (
  bad: { readonly chain: string; readonly seq: number } | undefined,
  damaged: string | undefined,
): string => {
  if (damaged !== undefined) return `the file is damaged (${damaged})`;
  return bad === undefined
    ? 'a document or a key does not fit'
    : `entry ${bad.seq} of ${bad.chain} is not as it was written`;
};

export const checkedText = (
  at: string,
  { entries, fault }: { readonly entries: number; readonly fault?: string },
): string =>
  fault === undefined
    ? `Record checked ${at}: intact, ${entries} entries.`
    : `RECORD NOT INTACT, checked ${at}: ${fault}.`;

/** Stopping would lose what is measured now, and mends nothing. */
export const whatToDoNotIntact =
  'Recording goes on, and what is measured now is kept. Hand out no report or package until somebody has looked: run verify, copy the folder as it is, and compare it with an earlier copy. Tell whoever relies on this record.';

export const copiedText = (
  at: string,
  { folder, failed }: { readonly folder?: string; readonly failed?: string },
): string => (failed === undefined ? `Copy verified ${at}: ${folder}.` : `NO COPY, tried ${at}: ${failed}`);
