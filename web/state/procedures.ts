/** The station's procedures, asked for when a page needs them and again after each entry. */
import { signal } from '@preact/signals';
import type { KeptRevision } from '../../server/weld/procedure-act.ts';
import { getJson } from '../feed/http.ts';
import type { Loading } from './joint.ts';

export const procedures = signal<Loading<readonly KeptRevision[]>>({ kind: 'loading' });

/** Only the newest answer counts. */
let asked = 0;

export const askProcedures = async (): Promise<void> => {
  asked += 1;
  const mine = asked;
  const answer = await getJson<readonly KeptRevision[]>('/api/procedures');
  if (mine !== asked) return;
  if (answer.kind === 'ok') procedures.value = { kind: 'there', value: answer.value };
  else if (procedures.peek().kind !== 'there') procedures.value = { kind: 'failed', why: 'unreachable' };
};
