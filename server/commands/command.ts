/** What every command of the command line is: a name, its help, and a run that answers with the exit status. */

export interface Terminal {
  /** A line (or lines) to standard output. */
  out(text: string): void;
  /** A line (or lines) to standard error. */
  err(text: string): void;
}

export interface Command {
  readonly name: string;
  /** One line for the list of commands. */
  readonly summary: string;
  /** The whole page of --help. */
  readonly help: string;
  /** `args` are those after the command's name. Never throws for bad input: it says what to do and answers 3. */
  run(args: readonly string[], terminal: Terminal): Promise<number>;
}

/** Exit status of every command. */
export const exitStatus = {
  /** Complies, or answered. */
  done: 0,
  doesNotComply: 1,
  cannotBeJudged: 2,
  /** Bad input, or the command failed. */
  failed: 3,
} as const;
