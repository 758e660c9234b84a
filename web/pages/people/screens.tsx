/** Trusted screens: where a PIN or a badge is enough. A screen is trusted by an administrator who is signed on at it. */
import { useSignal } from '@preact/signals';
import type { PeopleView } from '../../../server/weld/sign-on.ts';
import { dayText } from '../../format/time.ts';
import { entryOf, TextField } from '../../parts/field.tsx';
import type { PeopleDesk } from './people-desk.ts';

export function Screens({ view, desk }: { readonly view: PeopleView; readonly desk: PeopleDesk }) {
  const name = useSignal('');
  return (
    <section class="sheet" aria-labelledby="screens-heading">
      <h2 id="screens-heading">Trusted screens</h2>
      {view.screens.length === 0 && <p>None yet: a PIN or a badge is taken nowhere.</p>}
      <ul class="plain-list">
        {view.screens.map(({ id, name: called, trustedAt, trustedBy }) => (
          <li key={id} class="row">
            <span class="grow">
              {called}
              {called === view.screen ? ' (this screen)' : ''}, trusted by {trustedBy}, {dayText(trustedAt)}
            </span>
            <button
              type="button"
              class="plain"
              onClick={() => void desk.send('DELETE', `/api/screens/${id}`, {}, `${called} is trusted no more.`)}
            >
              Revoke {called}
            </button>
          </li>
        ))}
      </ul>
      {view.screen === undefined && (
        <form
          class="stack"
          onSubmit={async (event) => {
            event.preventDefault();
            const called = name.value.trim();
            if (
              await desk.send(
                'POST',
                '/api/screens',
                { name: called },
                `${called} is trusted: a PIN or a badge is enough here.`,
              )
            )
              name.value = '';
          }}
        >
          <TextField
            label="Name of this screen"
            hint="As Bay 2, tablet. Whoever can touch it has only a PIN to pass: trust screens that stand where people know each other."
            {...entryOf(name)}
          />
          <div class="row">
            <button type="submit" disabled={name.value.trim() === ''}>
              Trust this screen
            </button>
          </div>
        </form>
      )}
    </section>
  );
}
