/** Who acts on this device: whoever signed on where the station knows its people, else the name that was typed here. Always visible. */
import { computed, signal } from '@preact/signals';
import { type DutyKind, roleFor } from '../../server/weld/duties.ts';
import type { Person, Role } from '../../server/weld/person.ts';
import { rolesText } from '../../server/wording/duty.ts';
import { keep, kept } from './kept.ts';
import { askWho, signOn } from './sign-on.ts';

const key = 'preheat.person';

const isPerson = (value: unknown): value is Person =>
  typeof value === 'object' &&
  value !== null &&
  typeof (value as Person).name === 'string' &&
  (value as Person).name.trim() !== '';

const typed = signal<Person | undefined>(kept(key, isPerson));

/** Names are proven here; a typed one counts for nothing. */
export const signsOn = computed(() => signOn.value?.needed === true);

export const person = computed<Person | undefined>(() => {
  if (!signsOn.value) return typed.value;
  const who = signOn.value?.who;
  return who === undefined
    ? undefined
    : { name: who.name, ...(who.roles[0] === undefined ? {} : { role: who.roles[0] }) };
});

export const actAs = (now: Person | undefined): void => {
  typed.value = now;
  keep(key, now);
};

const rolesHeld = (): readonly Role[] | undefined => {
  if (signsOn.value) return signOn.value?.who?.roles;
  return typed.value?.role === undefined ? undefined : [typed.value.role];
};

/** Who may, where whoever acts here may not; undefined where nothing stands against it, or nobody is known yet. */
export const forWhom = (kind: DutyKind): string | undefined => {
  const held = rolesHeld();
  return held === undefined || roleFor(kind, held) !== undefined ? undefined : `for ${rolesText(kind)}`;
};

/** The same of several of which one is enough. */
export const forWhomOf = (kinds: readonly DutyKind[]): string | undefined =>
  kinds.map(forWhom).includes(undefined) ? undefined : forWhom(kinds[0]!);

/** What to say where an act has nobody to act; opens the way to it. */
export const nobodyYet = (): string => {
  askWho();
  return signsOn.peek()
    ? 'Sign on first, at the top of the page: every entry needs a name.'
    : 'Say who you are first, at the top of the page: every entry needs a name.';
};
