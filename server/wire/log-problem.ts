/** What is wrong with an imported file, and where. Told to a person, so each says what to do. */
import { limits } from '../measure/limits.ts';

export interface LogProblem {
  /** Line of the file, from 1. */
  readonly line?: number;
  /** Header of the column. */
  readonly column?: string;
  /** What is wrong and what to do. */
  readonly message: string;
}

/** The first of them, and how many more. */
export class Problems {
  readonly #kept: LogProblem[] = [];
  #more = 0;
  get isEmpty(): boolean {
    return this.#kept.length === 0;
  }
  add(problem: LogProblem): void {
    if (this.#kept.length < limits.importProblemsMaximum) this.#kept.push(problem);
    else this.#more += 1;
  }
  list(): readonly LogProblem[] {
    return this.#more === 0 ? this.#kept : [...this.#kept, { message: `and ${this.#more} more` }];
  }
}
