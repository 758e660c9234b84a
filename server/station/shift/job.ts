/**
 * A job of the emulated workshop as people do it: a course of acts, and between them what they wait for. They go by
 * what the station says and know nothing of the emulated steel.
 */
import type { Board } from '../../../firmware-protocol/emulator/board.ts';
import type { Assessment } from '../../judgement/assessment.ts';
import type { Instant } from '../../measure/quantity.ts';
import type { Act } from '../../weld/entry.ts';
import type { Joint } from '../../weld/joint.ts';
import type { Person } from '../../weld/person.ts';

export interface Hands {
  readonly board: Board;
  now(): Instant;
  /** As it stands now: it may be corrected on the way. */
  joint(): Joint;
  /** The newest judgement. */
  judged(): Assessment;
  act(who: Person, act: Act): void;
  /** The shift is handed over: both sign. */
  handOver(from: Person, to: Person, note: string): void;
  /** Binds the joint to the next revision of its job's procedure. */
  changeOver(who: Person, reason: string): void;
}

/** What is waited for: the newest judgement, and how long it has been waited for, milliseconds. */
export type Until = (assessment: Assessment, waited: number) => boolean;
export type Course = Generator<Until, void, void>;

export interface Job {
  /** A joint file of demo-data/shift/, without the values of its procedure. */
  readonly file: string;
  /** Revisions of its procedure in the folder beside it, oldest first: the joint is entered by the first. */
  readonly procedures: readonly RevisionFile[];
  course(hands: Hands): Course;
}

export interface RevisionFile {
  readonly file: string;
  /** Why it was made, where another went before it. */
  readonly reason?: string;
}

export const minutes =
  (count: number): Until =>
  (_, waited) =>
    waited >= count * 60_000;
