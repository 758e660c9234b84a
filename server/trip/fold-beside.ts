/**
 * What reaches far back is folded beside the trip: a job of hours takes seconds to judge anew, and no reading may wait so
 * long. The old judgement goes on until the new one comes, and the new one then takes in what came meanwhile.
 */
import type { JudgeMemory } from '../judgement/judge.ts';
import type { Instant } from '../measure/quantity.ts';
import { foldedAnew, foldHere, type JointRun } from './joint-run.ts';

/** Folds the first so many inputs of a joint, as they are in the record. */
export type FoldBeside = (joint: string, inputs: number) => Promise<JudgeMemory>;

/** Asked after a commit, so that all of it is in the record. `takeTurn` brings what was folded onto the trip. */
export function askFolds(
  runs: readonly JointRun[],
  foldBeside: FoldBeside,
  takeTurn: (fold: (at: Instant) => void) => void,
): void {
  for (const run of runs) {
    const { anew } = run;
    if (anew === undefined || anew.asked) continue;
    anew.asked = true;
    // Where another entry that reaches back came meanwhile, that one is folded, and this one with it.
    const onTrip = (fold: (at: Instant) => void): void =>
      takeTurn((at) => {
        if (run.anew === anew) fold(at);
      });
    foldBeside(run.id, anew.inputs).then(
      (memory) => onTrip((at) => foldedAnew(run, memory, at)),
      () => onTrip((at) => foldHere(run, at)),
    );
  }
}
