/** What the page of instruments asks of the station, and what came of it. */
import { useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import type { ConnectionsView, Problem, TrialView } from '../../../server/screen/contract.ts';
import { getJson, sendJson } from '../../feed/http.ts';
import { whyNot } from '../../state/sign-on.ts';

export interface InstrumentsDesk {
  readonly view: ConnectionsView | undefined;
  readonly trial: TrialView | undefined;
  readonly problems: readonly Problem[];
  readonly failure: string | undefined;
  readonly said: string;
  tryOut(text: string): Promise<void>;
  end(): Promise<void>;
  /** True once it is. */
  keep(text: string): Promise<boolean>;
  /** True once it is. */
  takeAway(name: string): Promise<boolean>;
  /** One that waits. */
  leaveOut(name: string): Promise<void>;
}

const lookEvery = 1_000;

export function useInstruments(): InstrumentsDesk {
  const view = useSignal<ConnectionsView | undefined>(undefined);
  const trial = useSignal<TrialView | undefined>(undefined);
  const trialId = useSignal<string | undefined>(undefined);
  const problems = useSignal<readonly Problem[]>([]);
  const failure = useSignal<string | undefined>(undefined);
  const said = useSignal('');

  const refresh = async (): Promise<void> => {
    const answer = await getJson<ConnectionsView>('/api/connections');
    if (answer.kind === 'ok') view.value = answer.value;
    else failure.value = whyNot(answer);
  };
  useEffect(() => void refresh(), []);

  useEffect(() => {
    const id = trialId.value;
    if (id === undefined) return undefined;
    const look = async (): Promise<void> => {
      const answer = await getJson<TrialView>(`/api/connections/trial/${id}`);
      if (trialId.peek() !== id) return;
      if (answer.kind === 'ok') trial.value = answer.value;
      else if (answer.kind === 'not found') forget();
    };
    void look();
    const timer = setInterval(() => void look(), lookEvery);
    return () => clearInterval(timer);
  }, [trialId.value]);

  const forget = (): void => {
    trialId.value = undefined;
    trial.value = undefined;
  };

  /** The file as JSON; or what is said where it is none. */
  const parsed = (text: string): { readonly connection: unknown } | undefined => {
    problems.value = [];
    failure.value = undefined;
    said.value = '';
    try {
      return { connection: JSON.parse(text) as unknown };
    } catch (cause) {
      failure.value = `The file is not JSON (${(cause as Error).message}). Look for a missing quote, comma or brace there.`;
      return undefined;
    }
  };

  const send = async <T>(method: 'POST' | 'DELETE', path: string, body: unknown): Promise<T | undefined> => {
    const answer = await sendJson<T>(method, path, body);
    if (answer.kind === 'ok') return answer.value;
    if (answer.kind === 'problems') problems.value = answer.problems;
    else failure.value = whyNot(answer);
    return undefined;
  };

  const drop = async (path: string): Promise<boolean> => {
    if ((await send('DELETE', path, {})) === undefined) return false;
    await refresh();
    return true;
  };

  return {
    view: view.value,
    trial: trial.value,
    problems: problems.value,
    failure: failure.value,
    said: said.value,
    async tryOut(text) {
      const body = parsed(text);
      forget();
      if (body === undefined) return;
      const begun = await send<{ id: string }>('POST', '/api/connections/trial', body);
      if (begun !== undefined) trialId.value = begun.id;
    },
    async end() {
      if (trialId.peek() === undefined) return;
      forget();
      await send('DELETE', '/api/connections/trial', {});
    },
    async keep(text) {
      const body = parsed(text);
      if (body === undefined) return false;
      // Keeping it ends the trial: it is not looked at meanwhile.
      const id = trialId.peek();
      trialId.value = undefined;
      if ((await send('POST', '/api/connections', body)) === undefined) {
        trialId.value = id;
        return false;
      }
      forget();
      said.value = 'It is kept, and read from now on. Name it as the board of the probes of a joint.';
      await refresh();
      return true;
    },
    async takeAway(name) {
      const isAway = await drop(`/api/connections/${encodeURIComponent(name)}`);
      if (isAway) said.value = `${name} is taken away. Its file stands here, to be changed, tried and kept again.`;
      return isAway;
    },
    async leaveOut(name) {
      await drop(`/api/connections/waiting/${encodeURIComponent(name)}`);
    },
  };
}
