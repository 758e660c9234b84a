/**
 * Who is signed on at this screen, as the station says it. A touch keeps a sign-on going; when it is about to end the
 * page says so in time. No secret is kept here: it goes from the form to the station and is forgotten.
 */
import { computed, signal } from '@preact/signals';
import type { SignOnView } from '../../server/weld/sign-on.ts';
import { signOffWarning, touchEvery } from '../feed/bounds.ts';
import { type Answer, getJson, postJson } from '../feed/http.ts';
import { monotonic } from './station.ts';

export const signOn = signal<SignOnView | undefined>(undefined);
/** By this device's monotonic clock. */
const endsAt = signal(0);
/** The panel that asks who acts is open, and what is to be done once it is known. */
export const asking = signal(false);
let afterwards: (() => void) | undefined;

/** Seconds until the sign-on ends by itself, once that is near. */
export const endsSoon = computed<number | undefined>(() => {
  if (signOn.value?.who === undefined) return undefined;
  const left = endsAt.value - monotonic.value;
  return left > signOffWarning ? undefined : Math.max(0, Math.ceil(left / 1000));
});

export const refreshSignOn = async (): Promise<void> => takeView(await getJson<SignOnView>('/api/sign-on'));

/** Undefined once somebody is signed on; else why not. */
export const signOnBy = async (body: object): Promise<string | undefined> => {
  const answer = await postJson('/api/sign-on', body);
  if (answer.kind === 'ok') await refreshSignOn();
  return answer.kind === 'ok' ? undefined : whyNot(answer);
};

export const signOff = async (): Promise<void> => {
  await postJson('/api/sign-off', {});
  await refreshSignOn();
};

export const stay = async (): Promise<void> => takeView(await postJson<SignOnView>('/api/sign-on/touch', {}));

export const askWho = (then?: () => void): void => {
  afterwards = then;
  asking.value = true;
};
export const doneAsking = (): void => {
  const then = afterwards;
  afterwards = undefined;
  asking.value = false;
  if (signOn.peek()?.who !== undefined) then?.();
};

export const whyNot = (answer: Exclude<Answer<unknown>, { kind: 'ok' }>): string => {
  switch (answer.kind) {
    case 'problems':
      return answer.problems.map(({ found, allowed }) => `${found} is not taken; allowed: ${allowed}`).join('. ');
    case 'refused':
    case 'not recording':
      return answer.because || 'The station refused it.';
    case 'not found':
    case 'unreachable':
      return 'No answer came from the station. Try again when the screen is live.';
  }
};

export const startSignOn = (): void => {
  void refreshSignOn();
  let touched = 0;
  const touch = (): void => {
    if (signOn.peek()?.who === undefined || performance.now() - touched < touchEvery) return;
    touched = performance.now();
    void stay();
  };
  addEventListener('pointerdown', touch);
  addEventListener('keydown', touch);
  endsSoon.subscribe((seconds) => {
    if (seconds === 0) void refreshSignOn();
  });
};

function takeView(answer: Answer<SignOnView>): void {
  if (answer.kind !== 'ok') return;
  endsAt.value = performance.now() + (answer.value.who?.endsInMilliseconds ?? 0);
  signOn.value = answer.value;
}
