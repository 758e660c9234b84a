/** Who acts on this device. Remembered here, always visible, and sent with every act. */
import { signal } from '@preact/signals';
import type { Person } from '../../server/weld/person.ts';
import { keep, kept } from './kept.ts';

const key = 'preheat.person';

const isPerson = (value: unknown): value is Person =>
  typeof value === 'object' &&
  value !== null &&
  typeof (value as Person).name === 'string' &&
  (value as Person).name.trim() !== '';

export const person = signal<Person | undefined>(kept(key, isPerson));

export const actAs = (now: Person | undefined): void => {
  person.value = now;
  keep(key, now);
};
