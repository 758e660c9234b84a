/** What is heard, and when again. Pitches and paces are this project's own choice; that the kinds differ is what is held here. */
import { expect, test } from 'vitest';
import { isDue, type Sound, tones } from '../../../web/feed/tones.ts';

const all = Object.keys(tones) as Sound[];

test('no two sounds are alike: pulses, pitches or pace differ', () => {
  const faces = all.map((sound) => JSON.stringify([tones[sound].hertz, tones[sound].everyMilliseconds]));
  expect(new Set(faces).size).toBe(all.length);
  expect(new Set(all.map((sound) => tones[sound].hertz.join())).size).toBe(all.length);
});

test('the more urgent the alarm, the more pulses and the sooner again', () => {
  const [high, medium, low] = (['high', 'medium', 'low'] as const).map((sound) => tones[sound]);
  expect(high!.hertz.length).toBeGreaterThan(medium!.hertz.length);
  expect(medium!.hertz.length).toBeGreaterThan(low!.hertz.length);
  expect(high!.everyMilliseconds!).toBeLessThan(medium!.everyMilliseconds!);
  expect(medium!.everyMilliseconds!).toBeLessThan(low!.everyMilliseconds!);
});

test('no sound runs into its own repetition', () => {
  for (const sound of all) {
    const { hertz, pulseMilliseconds, gapMilliseconds, everyMilliseconds } = tones[sound];
    const length = hertz.length * (pulseMilliseconds + gapMilliseconds);
    expect(length, sound).toBeLessThan(everyMilliseconds ?? Number.POSITIVE_INFINITY);
  }
});

test('an alarm sounds at once, again at its pace, and at once where a more urgent one comes', () => {
  const last = { sound: 'low', at: 1_000, times: 1 } as const;
  expect(isDue('low', undefined, 0)).toBe(true);
  expect(isDue('low', last, 30_999)).toBe(false);
  expect(isDue('low', last, 31_000)).toBe(true);
  expect(isDue('high', last, 1_001)).toBe(true);
});

test('a blind screen sounds three times; a call once', () => {
  expect(isDue('blind', { sound: 'blind', at: 0, times: 2 }, 10_000)).toBe(true);
  expect(isDue('blind', { sound: 'blind', at: 0, times: 3 }, 3_600_000)).toBe(false);
  expect(isDue('call', { sound: 'call', at: 0, times: 1 }, 3_600_000)).toBe(false);
});
