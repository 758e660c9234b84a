/** The letters and words that stand on the wire for the words of frame.ts. */
import type { Fault, HostFrame, Reply } from './frame.ts';

/** In this order, each at most once, behind an exclamation mark. */
export const faultLetters: Readonly<Record<Fault, string>> = {
  open: 'o',
  'short to ground': 'g',
  'short to supply': 's',
  'cold junction out of range': 'c',
  'out of range': 'r',
};

export const outcomes: Readonly<Record<string, Reply['outcome']>> = {
  done: 'done',
  refused: 'refused',
  'not-kept': 'not kept',
};

type StateOf<Kind> = Extract<HostFrame, { readonly kind: Kind; readonly state: string }>['state'];

export const lampStates: readonly StateOf<'lamp'>[] = ['off', 'on', 'slow', 'fast'];
export const hornStates: readonly StateOf<'horn'>[] = ['off', 'on'];
export const permissionStates: readonly StateOf<'permission'>[] = ['withheld', 'given'];
