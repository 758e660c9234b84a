/** The frame around every page: where one is, whether the station is heard, who acts, and what must not be overlooked. */
import { useSignal } from '@preact/signals';
import type { ComponentChildren } from 'preact';
import { blindBounds } from '../feed/bounds.ts';
import { clockText, zoneText } from '../format/time.ts';
import { person, signsOn } from '../state/person.ts';
import {
  newJointAddress,
  overviewAddress,
  pastAddress,
  peopleAddress,
  proceduresAddress,
  route,
} from '../state/route.ts';
import { asking, askWho, doneAsking, signOn } from '../state/sign-on.ts';
import { contact, serverSecond } from '../state/station.ts';
import { chooseTheme, theme, themes } from '../state/theme.ts';
import { StationBanners } from './banners.tsx';
import { Glyph } from './glyph.tsx';
import { NotLoaded, useLoaded } from './lazy.tsx';
import { SoundButton, SoundPanel } from './sound-panel.tsx';
import { StandingStill } from './still.tsx';

export function Shell({ children }: { readonly children: ComponentChildren }) {
  const sounding = useSignal(false);
  const blind =
    contact.value.kind === 'blind' ||
    (contact.value.kind === 'never heard' && contact.value.forMilliseconds > blindBounds.noWord);
  const page = route.value.page;
  return (
    <div class={blind ? 'page blind' : 'page'}>
      <header class="top">
        <a class="brand" href={overviewAddress}>
          <img src="/mark.svg" alt="" width="28" height="28" />
          Preheat Ledger
        </a>
        <nav aria-label="Pages">
          <a href={overviewAddress} aria-current={page === 'overview' ? 'page' : undefined}>
            Joints
          </a>
          <a href={newJointAddress} aria-current={page === 'new joint' ? 'page' : undefined}>
            New joint
          </a>
          <a
            href={proceduresAddress}
            aria-current={['procedures', 'procedure', 'new revision'].includes(page) ? 'page' : undefined}
          >
            Procedures
          </a>
          <a href={pastAddress} aria-current={page === 'past' || page === 'past counts' ? 'page' : undefined}>
            Past
          </a>
          {signOn.value?.who?.roles.includes('administrator') === true && (
            <a href={peopleAddress} aria-current={page === 'people' ? 'page' : undefined}>
              People
            </a>
          )}
        </nav>
        <span class="grow" />
        <Clock />
        <SoundButton
          open={sounding.value}
          toggle={() => {
            sounding.value = !sounding.value;
          }}
        />
        <button
          type="button"
          class={person.value === undefined ? 'who nobody' : 'who'}
          aria-expanded={asking.value}
          onClick={() => (asking.value ? doneAsking() : askWho())}
        >
          <Glyph name="person" size={20} />
          <span class="name">{person.value?.name ?? (signsOn.value ? 'Sign on' : 'Say who you are')}</span>
          {person.value !== undefined && <span class="role">{besideName()}</span>}
        </button>
        <ThemeButton />
      </header>
      {asking.value && (signsOn.value ? <SignOn done={doneAsking} /> : <Person done={doneAsking} />)}
      {sounding.value && (
        <SoundPanel
          done={() => {
            sounding.value = false;
          }}
        />
      )}
      <StationBanners />
      <main id="main">{children}</main>
      <StandingStill />
    </div>
  );
}

/** As what, and how it is known: a typed name is nobody's proof, and that stays in sight. */
function besideName(): string {
  const who = signOn.value?.who;
  if (signsOn.value && who !== undefined) return who.roles[0] ?? '';
  return [person.value?.role, 'not signed on'].filter((each) => each !== undefined).join(', ');
}

/** Loaded apart: whoever only watches does not sign on. */
function SignOn({ done }: { readonly done: () => void }) {
  const panel = useLoaded(() => import('./sign-on/panel.tsx'));
  if (panel === 'loading' || panel === 'failed') return <NotLoaded state={panel} />;
  return <panel.SignOnPanel done={done} />;
}

/** Loaded apart: it brings the schema of a person along, which watching does not need. */
function Person({ done }: { readonly done: () => void }) {
  const panel = useLoaded(() => import('./person-panel.tsx'));
  if (panel === 'loading' || panel === 'failed') return <NotLoaded state={panel} />;
  return <panel.PersonPanel done={done} />;
}

function Clock() {
  const now = serverSecond.value;
  const state = contact.value.kind;
  if (now === undefined) return <span class="clock">station not heard yet</span>;
  return (
    <span class={`clock ${state === 'live' ? 'live' : 'lost'}`}>
      {state === 'live' ? 'Live' : 'Lost'} <time>{clockText(now)}</time> <span class="zone">{zoneText(now)}</span>
    </span>
  );
}

function ThemeButton() {
  const next = themes[(themes.indexOf(theme.value) + 1) % themes.length]!;
  return (
    <button
      type="button"
      class="plain theme"
      aria-label={`Colours: ${theme.value}. Change to ${next}`}
      onClick={() => chooseTheme(next)}
    >
      {theme.value === 'auto' ? 'Auto' : theme.value === 'light' ? 'Light' : 'Dark'}
    </button>
  );
}
