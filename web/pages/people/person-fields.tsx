/** Name and parts of a person. */
import { useSignal } from '@preact/signals';
import { type Role, roles } from '../../../server/weld/person.ts';
import { begun } from '../../../server/wording/list.ts';
import { entryOf, TextField } from '../../parts/field.tsx';

export interface PersonSent {
  readonly name: string;
  readonly roles: readonly Role[];
}

export function PersonFields({
  from,
  action,
  send,
}: {
  readonly from?: PersonSent;
  readonly action: string;
  readonly send: (body: PersonSent) => Promise<boolean>;
}) {
  const name = useSignal(from?.name ?? '');
  const held = useSignal<readonly Role[]>(from?.roles ?? []);
  return (
    <form
      class="stack"
      onSubmit={async (event) => {
        event.preventDefault();
        const done = await send({ name: name.value.trim(), roles: held.value });
        if (!done || from !== undefined) return;
        name.value = '';
        held.value = [];
      }}
    >
      <TextField label="Name, as it is to stand in the record" {...entryOf(name)} />
      <fieldset>
        <legend>May act as</legend>
        <div class="choices">
          {roles.map((role) => (
            <label key={role} class={held.value.includes(role) ? 'chosen' : ''}>
              <input
                type="checkbox"
                checked={held.value.includes(role)}
                onChange={(event) => {
                  const others = held.value.filter((each) => each !== role);
                  held.value = event.currentTarget.checked ? [...others, role] : others;
                }}
              />
              {begun(role)}
            </label>
          ))}
        </div>
      </fieldset>
      <div class="row">
        <button type="submit" class="act" disabled={name.value.trim() === '' || held.value.length === 0}>
          {action}
        </button>
      </div>
    </form>
  );
}
