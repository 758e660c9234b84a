/** Switching sound on, hearing what each sound is like, and seeing whether this browser notifies. */
import type { Sound } from '../feed/tones.ts';
import { hear, type Notifying, notifying, type SoundState, soundState, switchOff, switchOn } from '../state/sound.ts';
import { Glyph } from './glyph.tsx';

const words: Readonly<Record<SoundState, string>> = {
  off: 'Sound off',
  asleep: 'Sound sleeps',
  on: 'Sound on',
};

export function SoundButton({ open, toggle }: { readonly open: boolean; readonly toggle: () => void }) {
  const state = soundState.value;
  return (
    <button type="button" class={`plain sound ${state}`} aria-expanded={open} onClick={toggle}>
      <Glyph name={state === 'on' ? 'bell' : 'silent'} size={20} />
      <span class="sound-word">{words[state]}</span>
    </button>
  );
}

const examples: readonly { readonly sound: Sound; readonly name: string }[] = [
  { sound: 'high', name: 'Alarm, act now' },
  { sound: 'medium', name: 'Alarm, soon' },
  { sound: 'low', name: 'Alarm, when you can' },
  { sound: 'blind', name: 'This screen is blind' },
  { sound: 'call', name: 'A call that somebody asked for' },
];

const notified: Readonly<Record<Notifying, string>> = {
  allowed: 'While this page is behind others, the browser also shows a notification.',
  'not asked': 'The browser will ask whether it may also show notifications while this page is behind others.',
  denied: 'This browser was told to show no notifications of this page; its settings can change that.',
  'not here': 'This browser shows no notifications here: keep the page in sight.',
};

export function SoundPanel({ done }: { readonly done: () => void }) {
  const state = soundState.value;
  return (
    <section class="sheet sound-panel" aria-label="Sound on this device">
      <p>
        {state === 'on'
          ? 'Sound is on. An alarm sounds here until somebody acknowledges it, of whichever joint it is.'
          : state === 'asleep'
            ? 'Sound is wanted here, but a browser keeps quiet until the page is touched: it is awake from the next touch on.'
            : 'This device is silent. Switch sound on, and turn its volume up: you hear at once what an urgent alarm is like.'}
      </p>
      <div class="row wrap">
        {state === 'on' ? (
          <>
            {examples.map(({ sound, name }) => (
              <button type="button" key={sound} onClick={() => hear(sound)}>
                Hear: {name}
              </button>
            ))}
            <button type="button" onClick={switchOff}>
              Switch sound off
            </button>
          </>
        ) : (
          <button type="button" class="act" onClick={() => void switchOn()}>
            Switch sound on and hear it
          </button>
        )}
        <button type="button" class="plain" onClick={done}>
          Done
        </button>
      </div>
      <p class="hint">{notified[notifying.value]}</p>
    </section>
  );
}
