/** Sends what a person does about an alarm, for each joint that it stands in, and says what came of it. */
import { useSignal } from '@preact/signals';
import type { Act } from '../../../server/weld/entry.ts';
import { actKey } from '../../feed/http.ts';
import { type Sent, sendAct } from '../../state/acts.ts';
import { nobodyYet, person } from '../../state/person.ts';

export interface AlarmAct {
  readonly failure: string | undefined;
  readonly sending: boolean;
  /** True once it is recorded everywhere. */
  send(act: Act): Promise<boolean>;
}

export function useAlarmAct(joints: readonly { readonly id: string }[], changed: () => void): AlarmAct {
  const failure = useSignal<string | undefined>(undefined);
  const sending = useSignal(false);
  /** One key for one act: sent again after a lost answer it is not recorded twice. */
  const keys = useSignal<ReadonlyMap<string, string>>(new Map());

  const keyFor = (joint: string, act: Act): string => {
    const what = `${joint} ${JSON.stringify(act)}`;
    const key = keys.peek().get(what) ?? actKey();
    keys.value = new Map([...keys.peek(), [what, key]]);
    return key;
  };

  return {
    failure: failure.value,
    sending: sending.value,
    async send(act) {
      const who = person.peek();
      if (who === undefined) {
        failure.value = nobodyYet();
        return false;
      }
      sending.value = true;
      const all = await Promise.all(joints.map(({ id }) => sendAct(id, who, act, keyFor(id, act))));
      sending.value = false;
      const failed = all.find(({ kind }) => kind !== 'recorded');
      failure.value = failed === undefined ? undefined : whyOf(failed);
      if (failed === undefined) {
        keys.value = new Map();
        changed();
      }
      return failed === undefined;
    },
  };
}

const whyOf = (sent: Sent): string =>
  sent.kind === 'wrong' ? Object.values(sent.problems).join('; ') : sent.kind === 'not recorded' ? sent.why : '';
