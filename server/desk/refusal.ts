/** Why what a person asked for is not recorded at once. */
import type { Problem } from '../weld/problems.ts';

/** It makes no sense as it stands, which showed only when its turn came. Nothing was recorded. */
export class Refusal extends Error {
  readonly problems: readonly Problem[];
  constructor(problems: readonly Problem[]) {
    super(problems.map(({ field, found, allowed }) => `${field}: ${found}; allowed: ${allowed}`).join('\n'));
    this.problems = problems;
  }
}

/** The record cannot be written at present. */
export class NotRecording extends Error {
  /** Present where it was taken in all the same: resolves with its position once it is recorded. */
  readonly recorded: Promise<number> | undefined;
  constructor(because: string, recorded?: Promise<number>) {
    super(
      recorded === undefined
        ? because
        : `${because} What was entered is kept here meanwhile, and recorded as soon as that can be done.`,
    );
    this.recorded = recorded;
  }
}
