/** Who acts here. The name goes with every act into the record, so it is asked once and stays in sight. */
import { useSignal } from '@preact/signals';
import { useEffect, useRef } from 'preact/hooks';
import { type Person, roles } from '../../server/weld/person.ts';
import { begun } from '../../server/wording/list.ts';
import { actAs, person } from '../state/person.ts';
import { entryOf, SelectField, TextField } from './field.tsx';

export function PersonPanel({ done }: { readonly done: () => void }) {
  const name = useSignal(person.value?.name ?? '');
  const role = useSignal<NonNullable<Person['role']> | ''>(person.value?.role ?? '');
  const problem = useSignal<string | undefined>(undefined);
  const panel = useRef<HTMLFormElement>(null);
  useEffect(() => panel.current?.querySelector('input')?.focus(), []);
  const save = (event: Event): void => {
    event.preventDefault();
    if (name.value.trim() === '') {
      problem.value = 'A name is needed: it stands in the record beside everything you do.';
      return;
    }
    actAs({ name: name.value.trim(), ...(role.value === '' ? {} : { role: role.value }) });
    done();
  };
  return (
    <form class="sheet person" ref={panel} onSubmit={save} aria-label="Who acts on this device">
      <TextField label="Your name" problem={problem.value} {...entryOf(name)} />
      <SelectField
        label="Your part in this"
        choices={[
          { value: '' as const, text: 'not stated' },
          ...roles.map((each) => ({ value: each, text: begun(each) })),
        ]}
        {...entryOf(role)}
      />
      <p class="hint">
        Nobody signs on at this station: the name stands in the record as typed, and nothing proves it. An administrator
        of the station can change that; the manual says how.
      </p>
      <div class="row">
        <button type="submit" class="act">
          Act under this name
        </button>
        {person.value !== undefined && (
          <button
            type="button"
            class="plain"
            onClick={() => {
              actAs(undefined);
              name.value = '';
            }}
          >
            Forget it
          </button>
        )}
        <button type="button" class="plain" onClick={done}>
          Back
        </button>
      </div>
    </form>
  );
}
