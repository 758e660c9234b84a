/** What the page People asks of the station, and what came of it. */
import { useSignal } from '@preact/signals';
import type { NewSecret, PeopleView } from '../../../server/weld/sign-on.ts';
import { getJson, sendJson } from '../../feed/http.ts';
import { refreshSignOn, whyNot } from '../../state/sign-on.ts';

export interface PeopleDesk {
  readonly failure: string | undefined;
  readonly said: string;
  /** True once it is done; the page is then as it is now. */
  send(method: 'POST' | 'PUT' | 'DELETE', path: string, body: unknown, said: string): Promise<boolean>;
  /** A secret that the station makes: shown once, by whoever asked. */
  make(path: string): Promise<NewSecret | undefined>;
}

export async function loadPeople(): Promise<{ readonly view?: PeopleView; readonly because?: string }> {
  const answer = await getJson<PeopleView>('/api/people');
  return answer.kind === 'ok' ? { view: answer.value } : { because: whyNot(answer) };
}

export function usePeopleDesk(changed: () => Promise<void>): PeopleDesk {
  const failure = useSignal<string | undefined>(undefined);
  const said = useSignal('');
  const ask = async <T>(method: 'POST' | 'PUT' | 'DELETE', path: string, body: unknown): Promise<T | undefined> => {
    failure.value = undefined;
    said.value = '';
    const answer = await sendJson<T>(method, path, body);
    if (answer.kind === 'ok') {
      await Promise.all([changed(), refreshSignOn()]);
      return answer.value;
    }
    failure.value = whyNot(answer);
    return undefined;
  };
  return {
    failure: failure.value,
    said: said.value,
    async send(method, path, body, words) {
      const done = (await ask(method, path, body)) !== undefined;
      if (done) said.value = words;
      return done;
    },
    make: (path) => ask<NewSecret>('POST', path, {}),
  };
}
