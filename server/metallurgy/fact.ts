/** A fact that a method needs: known with where it comes from, or to be asked for. Never a silent zero. */
import type { WorkingInput } from './answer.ts';

export type Fact =
  | { readonly known: true; readonly input: WorkingInput }
  | {
      readonly known: false;
      /** What to ask for, in words. */
      readonly ask: string;
    };
