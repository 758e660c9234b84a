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
  readonly joint: Joint;
  readonly board: Board;
  now(): Instant;
  /** The newest judgement. */
  judged(): Assessment;
  act(who: Person, act: Act): void;
}

/** What is waited for: the newest judgement, and how long it has been waited for, milliseconds. */
export type Until = (assessment: Assessment, waited: number) => boolean;
export type Course = Generator<Until, void, void>;

export interface Job {
  /** A joint file of demo-data/shift/. */
  readonly file: string;
  course(hands: Hands): Course;
}

export const minutes =
  (count: number): Until =>
  (_, waited) =>
    waited >= count * 60_000;

/** The people of the invented workshop. */
export const people = {
  welder: { name: 'Jorun Vik', role: 'welder' },
  heater: { name: 'Imke Sorel', role: 'heater operator' },
  inspector: { name: 'Mara Lind', role: 'inspector' },
  coordinator: { name: 'Tove Arnhart', role: 'coordinator' },
} as const;
