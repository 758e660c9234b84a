/**
 * What a bench file offers: one baseline, named, and rows that are measured against it. Times differ from machine
 * to machine; a ratio to a named baseline on the same machine in the same minute does not differ much.
 */
export interface Task {
  readonly name: string;
  /** How many units one run does. */
  readonly amount: number;
  /** Before each run, not timed. */
  prepare?(): void | Promise<void>;
  run(): void | Promise<void>;
  /** What one run must stay under, where something has been promised. */
  readonly mostMilliseconds?: number;
  /** The part of the baseline's speed that it must reach, where something has been promised. */
  readonly leastOfBaseline?: number;
  /** Which of the runs must: the middle one, unless stated. */
  readonly of?: 'p50' | 'p99';
}

export interface Fact {
  readonly text: string;
  /** Of what has been promised; undefined where nothing was. */
  readonly isKept?: boolean;
}

export interface BenchSet {
  readonly title: string;
  /** "lines", "values": what amount counts. */
  readonly unit: string;
  readonly baseline: Task;
  readonly rows: readonly Task[];
  /** What was measured once, told above the rows. */
  readonly facts?: readonly Fact[];
  /** How long each task is run; 1500 unless stated. */
  readonly milliseconds?: number;
  close?(): void | Promise<void>;
}
