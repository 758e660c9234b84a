/**
 * Sending what a person did. Nothing is queued: while the station is not heard an act is refused here and
 * what was typed stays in the form. Sent twice with the same key, it is recorded once.
 */
import type { Act } from '../../server/weld/entry.ts';
import type { Person } from '../../server/weld/person.ts';
import { begun } from '../../server/wording/list.ts';
import { type Answer, postFile, postJson } from '../feed/http.ts';
import { refreshSignOn } from './sign-on.ts';
import { contact } from './station.ts';

export type Sent =
  | { readonly kind: 'recorded'; readonly position: number }
  | { readonly kind: 'wrong'; readonly problems: Readonly<Record<string, string>> }
  | { readonly kind: 'not recorded'; readonly why: string };

/** `counterSign`: what the second signature of a hand-over gave. */
export const sendAct = async (
  joint: string,
  who: Person,
  act: Act,
  key: string,
  counterSign?: string,
): Promise<Sent> => {
  if (contact.peek().kind !== 'live') return { kind: 'not recorded', why: notHeard };
  return sentOf(
    await postJson<{ position: number }>(
      `/api/joints/${encodeURIComponent(joint)}/acts`,
      { who, act },
      key,
      counterSign,
    ),
  );
};

/** Keeps a document and answers with its hash; the act that names it follows. */
export const keepDocument = async (
  joint: string,
  file: Blob,
): Promise<{ readonly sha256: string } | { readonly why: string }> => {
  if (contact.peek().kind !== 'live') return { why: notHeard };
  const answer = await postFile<{ sha256: string }>(`/api/joints/${encodeURIComponent(joint)}/documents`, file);
  if (answer.kind === 'ok') return answer.value;
  const sent = sentOf(answer);
  return { why: sent.kind === 'not recorded' ? sent.why : 'The station did not take the document.' };
};

const notHeard =
  'Not sent: the station is not heard. What you typed stays here; send it when the screen is live again.';

export const sentOf = (answer: Answer<{ position: number }>): Sent => {
  switch (answer.kind) {
    case 'ok':
      return { kind: 'recorded', position: answer.value.position };
    case 'problems':
      return {
        kind: 'wrong',
        problems: Object.fromEntries(
          answer.problems.map(({ field, found, allowed }) => [
            field,
            found === '' ? allowed : `${begun(found)} cannot be taken. Allowed: ${allowed}.`,
          ]),
        ),
      };
    case 'not recording':
      return {
        kind: 'not recorded',
        why: `Not recorded: ${answer.because || 'the station cannot write'}. What you typed stays here; write it down by hand as well.`,
      };
    case 'not found':
      return {
        kind: 'not recorded',
        why: 'Not recorded: the station does not know this joint any more. Go back to the list of joints.',
      };
    case 'unreachable':
      return {
        kind: 'not recorded',
        why: 'No answer came, so it is not known whether it was recorded. Send it again: it is not recorded twice.',
      };
    case 'refused':
      // Signed off meanwhile, or the station knows people since: the page learns it by this.
      if (answer.status === 401) void refreshSignOn();
      return {
        kind: 'not recorded',
        why: `Not recorded: ${answer.because || `the station refused it (${answer.status})`}.`,
      };
  }
};
