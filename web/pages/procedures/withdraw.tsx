/** A revision taken out of use: by name, with a reason; it stays in the record. */
import { useSignal } from '@preact/signals';
import type { KeptRevision } from '../../../server/weld/procedure-act.ts';
import { rolesText } from '../../../server/wording/duty.ts';
import { actKey, postJson } from '../../feed/http.ts';
import { TextArea } from '../../parts/field.tsx';
import { sentOf } from '../../state/acts.ts';
import { nobodyYet, person } from '../../state/person.ts';
import { askProcedures } from '../../state/procedures.ts';

export function Withdraw({ of }: { readonly of: KeptRevision }) {
  const reason = useSignal('');
  const failure = useSignal<string | undefined>(undefined);
  const key = useSignal(actKey());
  const withdraw = async (): Promise<void> => {
    const who = person.peek();
    if (who === undefined) {
      failure.value = nobodyYet();
      return;
    }
    if (reason.value.trim() === '') {
      failure.value = 'Say why it is withdrawn: the reason stands in the record.';
      return;
    }
    const body = { who, reason: reason.value.trim() };
    const sent = sentOf(await postJson(`/api/procedures/${of.sha256}/withdrawal`, body, key.peek()));
    if (sent.kind === 'recorded') await askProcedures();
    else failure.value = sent.kind === 'wrong' ? Object.values(sent.problems).join('; ') : sent.why;
  };
  return (
    <details>
      <summary>Withdraw this revision</summary>
      <form
        class="stack"
        onSubmit={(event) => {
          event.preventDefault();
          void withdraw();
        }}
      >
        <p class="hint">For {rolesText('withdraw procedure')}. No new joint can be bound to it then.</p>
        <TextArea
          label="Why it is withdrawn"
          value={reason.value}
          onValue={(value) => {
            reason.value = value;
            key.value = actKey();
          }}
        />
        {failure.value !== undefined && (
          <p class="notice loud" role="alert">
            {failure.value}
          </p>
        )}
        <button type="submit" class="act">
          Withdraw in my name
        </button>
      </form>
    </details>
  );
}
