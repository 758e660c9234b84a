/** One person: parts, what the person signs on with, qualifications. A secret that was made is shown here once. */
import { useSignal } from '@preact/signals';
import type { NewSecret, PersonView } from '../../../server/weld/sign-on.ts';
import { listText } from '../../../server/wording/list.ts';
import type { PeopleDesk } from './people-desk.ts';
import { PersonFields } from './person-fields.tsx';
import { Qualifications } from './qualifications.tsx';

const ways = [
  { kind: 'PIN', path: 'pin', text: 'PIN' },
  { kind: 'badge', path: 'badge', text: 'badge' },
  { kind: 'password', path: 'password', text: 'password' },
] as const;

export function OnePerson({ person, desk }: { readonly person: PersonView; readonly desk: PeopleDesk }) {
  const made = useSignal<NewSecret | undefined>(undefined);
  const { id, name, roles, active, has } = person;
  const path = `/api/people/${id}`;
  return (
    <section class={active ? 'sheet' : 'sheet gone'} aria-label={name}>
      <div class="sheet-head">
        <h2>{name}</h2>
        <p class="aside">{active ? listText(roles) : 'works here no more'}</p>
      </div>
      {active && (
        <p>
          {has.length === 0
            ? 'Cannot sign on yet: give a PIN, a badge or a password.'
            : `Signs on with: ${listText(has)}.`}
        </p>
      )}
      {made.value !== undefined && (
        <MadeSecret
          name={name}
          made={made.value}
          close={() => {
            made.value = undefined;
          }}
        />
      )}
      {active && (
        <div class="row wrap">
          {ways.map(({ kind, path: last, text }) => (
            <button
              key={kind}
              type="button"
              onClick={async () => {
                made.value = await desk.make(`${path}/${last}`);
              }}
            >
              {has.includes(kind) ? `New ${text}` : `Give a ${text}`}
            </button>
          ))}
          {ways
            .filter(({ kind }) => kind !== 'password' && has.includes(kind))
            .map(({ kind, path: last, text }) => (
              <button
                key={kind}
                type="button"
                class="plain"
                onClick={() => void desk.send('DELETE', `${path}/${last}`, {}, `The ${text} of ${name} is withdrawn.`)}
              >
                Withdraw the {text}
              </button>
            ))}
        </div>
      )}
      <Qualifications person={person} desk={desk} />
      <details>
        <summary>Name and parts of {name}</summary>
        <div class="later">
          <PersonFields
            from={person}
            action="Change"
            send={(body) => desk.send('PUT', path, { ...body, active }, `${body.name} is changed.`)}
          />
          <div class="row wrap">
            <button
              type="button"
              class="plain"
              onClick={() =>
                void desk.send(
                  'PUT',
                  path,
                  { name, roles, active: !active },
                  active ? `${name} works here no more and is signed off.` : `${name} works here again.`,
                )
              }
            >
              {active ? 'Works here no more' : 'Works here again'}
            </button>
          </div>
        </div>
      </details>
    </section>
  );
}

function MadeSecret({
  name,
  made,
  close,
}: {
  readonly name: string;
  readonly made: NewSecret;
  readonly close: () => void;
}) {
  return (
    <fieldset class="made">
      <legend>
        New {made.kind} of {name}
      </legend>
      <p>
        <strong>Shown once.</strong> The station keeps no copy; a lost one is replaced by a new one.
      </p>
      {made.svg === undefined ? (
        <p class="secret">{made.text}</p>
      ) : (
        <figure>
          <img
            src={`data:image/svg+xml,${encodeURIComponent(made.svg)}`}
            alt={`Code of the badge of ${name}`}
            width="220"
            height="220"
          />
          <figcaption>{name}</figcaption>
        </figure>
      )}
      <div class="row wrap">
        {made.svg !== undefined && (
          <button type="button" class="act" onClick={() => print()}>
            Print the badge
          </button>
        )}
        <button type="button" class="plain" onClick={close}>
          {made.svg === undefined ? 'It is handed over' : 'Done'}
        </button>
      </div>
    </fieldset>
  );
}
