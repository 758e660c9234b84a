/** The frame around every page: where one is, whether the station is heard, who acts, and what must not be overlooked. */
import { useSignal } from '@preact/signals';
import type { ComponentChildren } from 'preact';
import { blindBounds } from '../feed/bounds.ts';
import { clockText, zoneText } from '../format/time.ts';
import { person } from '../state/person.ts';
import { newJointAddress, overviewAddress, route } from '../state/route.ts';
import { contact, serverSecond } from '../state/station.ts';
import { chooseTheme, theme, themes } from '../state/theme.ts';
import { StationBanners } from './banners.tsx';
import { Glyph } from './glyph.tsx';
import { NotLoaded, useLoaded } from './lazy.tsx';
import { SoundButton, SoundPanel } from './sound-panel.tsx';
import { StandingStill } from './still.tsx';

export function Shell({ children }: { readonly children: ComponentChildren }) {
  const asking = useSignal(false);
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
          onClick={() => {
            asking.value = !asking.value;
          }}
        >
          <Glyph name="person" size={20} />
          <span class="name">{person.value === undefined ? 'Say who you are' : person.value.name}</span>
          {person.value?.role !== undefined && <span class="role">{person.value.role}</span>}
        </button>
        <ThemeButton />
      </header>
      {asking.value && (
        <Person
          done={() => {
            asking.value = false;
          }}
        />
      )}
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
