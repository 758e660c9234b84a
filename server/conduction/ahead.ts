/**
 * A wall followed beyond the present, in steps that grow where little happens: small after the beginning and after
 * every bend of the course, longer as the profile evens out. A ramp that has settled costs a few steps only. At the
 * time that is found for a temperature, stepping at every second has that temperature within 0.02 K; a test holds that.
 */
import { bounds } from './bounds.ts';
import { copyField, type FaceCondition, type Field } from './field.ts';
import { step } from './step.ts';
import { timeConstantOf } from './time-constant.ts';
import type { Wall } from './wall.ts';

/** How the faces go on; times in seconds from the present. */
export interface Course {
  readonly front: (seconds: number) => FaceCondition;
  readonly back: FaceCondition;
  /** Where the front bends, in order: a step ends there, and small ones begin anew. */
  readonly bends: readonly number[];
  readonly until: number;
  /** What leaves sideways, K/s; as it is at the present where it is not given. */
  readonly sideways?: (seconds: number) => number;
}

/** First step after the beginning or a bend, as a part of the time constant. Own choice. */
const firstPart = 0.005;
/** How far one step may bend a temperature away from a straight line, kelvin. Own choice. */
const bendKelvin = 0.04;
/** Bounds of the growth from step to step; above 2.4 the second-order steps lose their order. */
const shrinkMost = 0.4;
const growMost = 1.6;

/**
 * Calls `see` after each step with the seconds from the present and the field at that time, until it says true or the
 * course ends. The wall itself stays as it is.
 */
export function follow(wall: Wall, course: Course, see: (seconds: number, field: Field) => boolean): void {
  const field = copyField(wall.field);
  // What drove the wall until now does not go on: the first step knows nothing of it.
  field.lastSeconds = 0;
  const first = (firstPart * timeConstantOf(wall)) / 1000;
  const bends = [...course.bends.filter((bend) => bend > 0 && bend < course.until), course.until];
  let at = 0;
  for (const bend of bends) {
    let seconds = first;
    while (at < bend) {
      // No step is left over that would be much shorter than the one before.
      const left = bend - at;
      const taken = left <= seconds ? left : left < 2 * seconds ? left / 2 : seconds;
      at = left <= seconds ? bend : at + taken;
      if (course.sideways !== undefined) field.sideways = course.sideways(at);
      const bent = stepAndBend(field, taken, course.front(at), course.back);
      if (see(at, field)) return;
      seconds = taken * Math.min(growMost, Math.max(shrinkMost, Math.sqrt(bendKelvin / Math.max(bent, 1e-9))));
      seconds = Math.max(seconds, first);
    }
  }
}

const earlier = new Float64Array(bounds.cellsMaximum);

/** One step; how far it bends the temperatures away from the straight line through the two before, at most. */
function stepAndBend(field: Field, seconds: number, front: FaceCondition, back: FaceCondition): number {
  const { celsius, before } = field;
  const ratio = field.lastSeconds > 0 ? seconds / field.lastSeconds : 0;
  for (let cell = 0; cell < before.length; cell += 1) earlier[cell] = before[cell]!;
  step(field, seconds, front, back);
  let most = 0;
  for (let cell = 0; cell < celsius.length; cell += 1) {
    const bent = celsius[cell]! - before[cell]! - ratio * (before[cell]! - earlier[cell]!);
    most = Math.max(most, bent < 0 ? -bent : bent);
  }
  return most;
}
