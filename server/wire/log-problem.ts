/** What is wrong with an imported file, and where. Told to a person, so each says what to do. */
import { limits } from '../measure/limits.ts';

/** What only a person can say of a log; each is an option of the same name. */
export type LogQuestionKind =
  | 'columns'
  | 'unit'
  | 'order'
  | 'zone'
  | 'numbers'
  | 'clock'
  | 'day'
  | 'decimal'
  | 'sheet'
  | 'leaveOutRows';

export interface LogQuestion {
  readonly asks: LogQuestionKind;
  /** The readings that are possible, where they are few. */
  readonly choices?: readonly string[];
}

export interface LogProblem {
  /** Line of the file, from 1. */
  readonly line?: number;
  /** Header of the column. */
  readonly column?: string;
  /** What is wrong and what to do. */
  readonly message: string;
  /** An answer to this question puts it right. */
  readonly question?: LogQuestion;
}

/** The first of them, and how many more. */
export class Problems {
  readonly #kept: LogProblem[] = [];
  readonly #maximum: number;
  #more = 0;
  constructor(maximum: number = limits.importProblemsMaximum) {
    this.#maximum = maximum;
  }
  get isEmpty(): boolean {
    return this.#kept.length === 0;
  }
  add(problem: LogProblem): void {
    if (this.#kept.length < this.#maximum) this.#kept.push(problem);
    else this.#more += 1;
  }
  list(): readonly LogProblem[] {
    return this.#more === 0 ? this.#kept : [...this.#kept, { message: `and ${this.#more} more` }];
  }
}
