/** Name and password, on any screen. */
import { useSignal } from '@preact/signals';
import type { Try } from './panel.tsx';
import { SecretField } from './secret-field.tsx';

interface Props {
  readonly attempt: Try;
  readonly sending: boolean;
  readonly label?: string;
}

export function ByPassword({ attempt, sending, label = 'Sign on' }: Props) {
  const name = useSignal('');
  const password = useSignal('');
  return (
    <form
      class="by-password"
      aria-label={`${label} with name and password`}
      onSubmit={async (event) => {
        event.preventDefault();
        const typed = password.value;
        password.value = '';
        await attempt({ name: name.value.trim(), password: typed });
      }}
    >
      <label>
        Name
        <input
          type="text"
          autoComplete="username"
          value={name.value}
          onInput={(event) => {
            name.value = event.currentTarget.value;
          }}
        />
      </label>
      <SecretField label="Password" value={password} of="current" />
      <button type="submit" class="act" disabled={sending || name.value.trim() === '' || password.value === ''}>
        {sending ? 'Asking' : label}
      </button>
    </form>
  );
}
