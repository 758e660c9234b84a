/** Who works at this station, for its administrator: names, parts, what each signs on with, qualifications, trusted screens. */
import { useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import type { PeopleView } from '../../../server/weld/sign-on.ts';
import { clockMinuteText, dayText } from '../../format/time.ts';
import { useTitle } from '../../parts/title.ts';
import { person, signsOn } from '../../state/person.ts';
import { askWho, signOn } from '../../state/sign-on.ts';
import { OnePerson } from './one-person.tsx';
import { loadPeople, type PeopleDesk, usePeopleDesk } from './people-desk.ts';
import { PersonFields } from './person-fields.tsx';
import { Screens } from './screens.tsx';

export function PeoplePage() {
  useTitle('People', 'Preheat Ledger');
  const view = useSignal<PeopleView | undefined>(undefined);
  const refused = useSignal<string | undefined>(undefined);
  const load = async (): Promise<void> => {
    const answer = await loadPeople();
    view.value = answer.view;
    refused.value = answer.because;
  };
  const who = signOn.value?.who;
  useEffect(() => {
    if (who === undefined) view.value = undefined;
    else void load();
  }, [who?.id, who?.proof]);
  const desk = usePeopleDesk(load);
  return (
    <article class="people" aria-labelledby="people-title">
      <h1 id="people-title">People</h1>
      {view.value === undefined ? <NotShown because={refused.value} /> : <Shown view={view.value} desk={desk} />}
    </article>
  );
}

function NotShown({ because }: { readonly because: string | undefined }) {
  if (!signsOn.value) {
    return (
      <section class="sheet">
        <p>
          This station knows nobody yet: names are taken as they are typed, and the record says so. The first
          administrator is added at the machine that keeps the record, with{' '}
          <code>npm run -s ledger -- people add-administrator</code>; from then on everybody who acts signs on, and the
          others are added here.
        </p>
      </section>
    );
  }
  return (
    <section class="sheet">
      <p>
        {because === undefined ? 'For an administrator, signed on with name and password.' : `Not shown: ${because}.`}
      </p>
      {person.value === undefined && (
        <button type="button" class="act" onClick={() => askWho()}>
          Sign on
        </button>
      )}
    </section>
  );
}

function Shown({ view, desk }: { readonly view: PeopleView; readonly desk: PeopleDesk }) {
  return (
    <>
      {desk.failure !== undefined && (
        <p class="notice loud" role="alert">
          Nothing was changed: {desk.failure}.
        </p>
      )}
      <p class="said" role="status">
        {desk.said}
      </p>
      {view.people.map((each) => (
        <OnePerson key={each.id} person={each} desk={desk} />
      ))}
      <section class="sheet" aria-label="Add somebody">
        <details>
          <summary>Add somebody</summary>
          <div class="later">
            <PersonFields
              action="Add"
              send={(body) =>
                desk.send('POST', '/api/people', body, `${body.name} is added. Give a PIN, a badge or a password next.`)
              }
            />
          </div>
        </details>
      </section>
      <Screens view={view} desk={desk} />
      <section class="sheet" aria-labelledby="events-heading">
        <h2 id="events-heading">What was done here</h2>
        <ul class="plain-list">
          {view.events.map(({ at, who, what }) => (
            <li key={`${at} ${what}`}>
              {dayText(at)} {clockMinuteText(at)}: {who} {what}
            </li>
          ))}
        </ul>
      </section>
    </>
  );
}
