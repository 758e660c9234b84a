/**
 * Sound and notifications on this device. A browser lets a page sound only after a hand touched it, so that sound is
 * switched on by a gesture that is seen, and after a reload it sleeps, visibly, until the page is touched again.
 */
import { computed, effect, signal } from '@preact/signals';
import { isDue, play, type Sound, type Sounded } from '../feed/tones.ts';
import { keep, kept } from './kept.ts';
import { monotonic, station, unseen } from './station.ts';

const key = 'preheat.sound';
/** A person switched it on here. */
const wanted = signal(kept(key, (value): value is boolean => value === true) === true);
/** The browser lets it sound. */
const awake = signal(false);
export type SoundState = 'off' | 'asleep' | 'on';
export const soundState = computed<SoundState>(() => (!wanted.value ? 'off' : awake.value ? 'on' : 'asleep'));
export type Notifying = 'allowed' | 'not asked' | 'denied' | 'not here';
export const notifying = signal<Notifying>('not here');

let context: AudioContext | undefined;
let last: Sounded | undefined;

/** What has to sound now: no sight of the station before all, then the most urgent alarm that nobody has acknowledged. */
const sounding = computed<Sound | undefined>(() =>
  unseen.value.some(({ level }) => level === 'stop') ? 'blind' : station.value?.attention[0]?.priority,
);

/** From a gesture only. What an urgent alarm is like is heard at once, so that nobody trusts a device that is muted. */
export const switchOn = async (): Promise<void> => {
  wanted.value = true;
  keep(key, true);
  await wake();
  hear('high');
  // Not waited for: the browser asks a person, who may never answer.
  if (notifying.peek() === 'not asked')
    void Notification.requestPermission().then(() => {
      notifying.value = notifyingNow();
    });
};

export const switchOff = (): void => {
  wanted.value = false;
  keep(key, undefined);
  void context?.suspend();
  awake.value = false;
};

/** So that a person hears what each is like; false where the browser keeps quiet. */
export const hear = (sound: Sound): boolean => {
  if (context === undefined || !awake.peek()) return false;
  play(context, sound);
  return true;
};

/** On other pages than this one a notification says it; on this one the page itself does. */
export const notify = (title: string, body: string, tag: string): void => {
  if (notifying.peek() !== 'allowed' || document.visibilityState === 'visible') return;
  try {
    new Notification(title, { body, tag });
  } catch {
    // Some browsers let only installed programs notify; sound and page say it all the same.
    notifying.value = 'not here';
  }
};

async function wake(): Promise<void> {
  context ??= new AudioContext();
  await context.resume();
  awake.value = context.state === 'running';
}

const notifyingNow = (): Notifying => {
  if (!('Notification' in globalThis) || !globalThis.isSecureContext) return 'not here';
  const { permission } = Notification;
  return permission === 'granted' ? 'allowed' : permission === 'denied' ? 'denied' : 'not asked';
};

export const startSound = (): void => {
  notifying.value = notifyingNow();
  // The first touch of a page on which sound was wanted before wakes it.
  document.addEventListener('pointerdown', () => {
    if (wanted.peek() && !awake.peek()) void wake();
  });
  effect(() => {
    const now = monotonic.value;
    const sound = sounding.value;
    if (sound === undefined) last = undefined;
    else if (soundState.value === 'on' && isDue(sound, last, now)) {
      hear(sound);
      last = { sound, at: now, times: last?.sound === sound ? last.times + 1 : 1 };
    }
  });
  const told = new Set<string>();
  effect(() => {
    const attention = station.value?.attention ?? [];
    const names = new Set(attention.map(({ joint, key }) => `${joint} ${key}`));
    for (const name of told) if (!names.has(name)) told.delete(name);
    for (const { joint, key, title, what } of attention) {
      const name = `${joint} ${key}`;
      if (told.has(name)) continue;
      told.add(name);
      notify(title, what, name);
    }
  });
};
