/** What every part of the form gets: the draft, a way to change it, and the problem of a field once it may be shown. */
import type { JointDraft } from './draft.ts';

export interface Entry {
  readonly draft: JointDraft;
  change(part: Partial<JointDraft>): void;
  /** Another draft altogether. */
  replace(draft: JointDraft): void;
  /** The problem of the field, if the person has been there or has tried to enter the joint. */
  problem(field: string): string | undefined;
  touch(field: string): void;
}

/** The list with one member replaced, or taken away. */
export const replaced = <T,>(list: readonly T[], index: number, part: Partial<T>): T[] =>
  list.map((each, at) => (at === index ? { ...each, ...part } : each));
export const without = <T,>(list: readonly T[], index: number): T[] => list.filter((_, at) => at !== index);
