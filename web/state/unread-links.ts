/** The ports that are not read, as one banner: it must leave room for what stands below, also where a whole hub is gone. */
import type { LinkView } from '../../server/screen/contract.ts';
import { listText } from '../../server/wording/list.ts';

export interface UnreadWords {
  readonly head: string;
  readonly rest: string;
}

export function unreadWords(links: readonly LinkView[]): UnreadWords | undefined {
  const unread = links.filter(({ state }) => state === 'lost' || state === 'refused');
  const [first, ...others] = unread;
  if (first === undefined) return undefined;
  if (others.length === 0) return ofOne(first);
  const isAlike = first.cause !== undefined && others.every(({ cause }) => cause === first.cause);
  return {
    head: `Not read: ${listText(unread.map(nameOf))}${isAlike ? `: ${first.cause}` : ''}.`,
    rest: `${isAlike ? 'Where they went together, look first at the hub that they share, its plug and its supply. ' : ''}What each of them needs stands on the page`,
  };
}

const nameOf = ({ board, port }: LinkView): string => board ?? port;

const ofOne = (link: LinkView): UnreadWords => ({
  head: `${link.state === 'lost' ? 'No connection to' : 'Not read:'} ${nameOf(link)}${link.cause === undefined ? '' : `: ${link.cause}`}.`,
  rest: link.advice ?? `Check the cable at ${link.port}.`,
});
