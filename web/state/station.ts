/**
 * What the whole page shares: the station's own state, when it was last heard, what time it is there.
 * The signals are made here once; only main starts the line and the clock that move them.
 */
import { computed, signal } from '@preact/signals';
import type { Instant } from '../../server/measure/quantity.ts';
import type { StationView } from '../../server/screen/contract.ts';
import { type Contact, contactNow, type Heard } from '../feed/contact.ts';
import { type Presence, presenceAfter, presenceAt } from '../feed/presence.ts';
import { type LiveLine, openLine } from '../feed/socket.ts';
import { type Blind, stationBlindness } from './blindness.ts';

export const station = signal<StationView | undefined>(undefined);
export const connected = signal(false);
const heard = signal<Heard | undefined>(undefined);
const openedAt = signal(0);
/** This device's monotonic clock, moved a few times a second. */
export const monotonic = signal(0);
const presence = signal<Presence>(presenceAt(0, false));
/** This device's wall clock less the station's. */
const clockLead = signal<number | undefined>(undefined);

export const contact = computed<Contact>(() => contactNow(heard.value, openedAt.value, monotonic.value));
/** Server time, as far as it can be known; undefined until the station was heard once. */
export const serverNow = computed<Instant | undefined>(() => {
  const now = contact.value;
  return now.kind === 'never heard' ? undefined : now.now;
});
/** The same in whole seconds: for what need not move four times a second. */
export const serverSecond = computed<Instant | undefined>(() => {
  const now = serverNow.value;
  return now === undefined ? undefined : ((Math.floor(now / 1000) * 1000) as Instant);
});

/** What this page does not see just now. */
export const unseen = computed<Blind[]>(() =>
  stationBlindness({
    contact: contact.value,
    connected: connected.value,
    view: station.value,
    clockLead: station.value?.demonstration === true ? undefined : clockLead.value,
    away: presence.value.away,
    monotonic: monotonic.value,
    heardAt: heard.value?.monotonic,
  }),
);

let line: LiveLine | undefined;
export const liveLine = (): LiveLine => {
  if (line === undefined) throw new Error('startStation was not called');
  return line;
};

export const startStation = (): void => {
  openedAt.value = performance.now();
  const isHidden = (): boolean => document.visibilityState === 'hidden';
  presence.value = presenceAt(openedAt.peek(), isHidden());
  const tick = (): void => {
    const now = performance.now();
    monotonic.value = now;
    presence.value = presenceAfter(presence.peek(), now, isHidden());
  };
  line = openLine({
    station: (view) => {
      station.value = view;
    },
    heard: (now) => {
      heard.value = { serverNow: now as Instant, monotonic: performance.now() };
      clockLead.value = Date.now() - now;
      tick();
    },
    connected: (now) => {
      connected.value = now;
    },
  });
  tick();
  setInterval(tick, 250);
  // A tab that was in the background may have slept: tell the truth at once when it is looked at again.
  document.addEventListener('visibilitychange', tick);
};
