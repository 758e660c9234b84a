/** One's own PIN or password, changed against the password that one has now. */
import { useSignal } from '@preact/signals';
import { limits } from '../../../server/measure/limits.ts';
import { postJson } from '../../feed/http.ts';
import { whyNot } from '../../state/sign-on.ts';
import { ChoiceField, entryOf } from '../field.tsx';
import { SecretField } from './secret-field.tsx';

export function OwnSecrets() {
  const kind = useSignal<'PIN' | 'password'>('PIN');
  const password = useSignal('');
  const secret = useSignal('');
  const said = useSignal('');
  const change = async (): Promise<void> => {
    const answer = await postJson('/api/sign-on/own', {
      kind: kind.value,
      password: password.value,
      secret: secret.value,
    });
    password.value = '';
    secret.value = '';
    said.value = answer.kind === 'ok' ? `Your ${kind.value} is changed.` : `Nothing was changed: ${whyNot(answer)}.`;
  };
  return (
    <details>
      <summary>Change my PIN or password</summary>
      <form
        class="later by-password"
        aria-label="Change my PIN or password"
        onSubmit={(event) => {
          event.preventDefault();
          void change();
        }}
      >
        <ChoiceField
          label="What"
          choices={[
            { value: 'PIN', text: `PIN, ${limits.pinShortest} to ${limits.pinLongest} digits` },
            { value: 'password', text: `Password, ${limits.passwordShortest} characters or more` },
          ]}
          {...entryOf(kind)}
        />
        <SecretField label="Password that you have now" value={password} of="current" />
        <SecretField label={`New ${kind.value}`} value={secret} of="new" />
        <button type="submit" disabled={password.value === '' || secret.value === ''}>
          Change it
        </button>
        <p class="said" role="status">
          {said.value}
        </p>
      </form>
    </details>
  );
}
