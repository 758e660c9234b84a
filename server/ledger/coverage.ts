/**
 * Which stretches of time a series of readings covers, and the gaps between them. A reading covers the
 * time up to `reach` after it. Readings may come late, out of order: they close the gap they belong to.
 * Memory is bounded: when there are many gaps, the oldest are counted and no longer listed.
 */
import { limits } from '../measure/limits.ts';

export interface Gap {
  readonly from: number;
  readonly to: number;
}
export interface Gaps {
  readonly count: number;
  readonly totalMilliseconds: number;
  /** The newest ones, at most limits.gapsListedMaximum, in order of time. */
  readonly listed: readonly Gap[];
}
interface Stretch {
  from: number;
  to: number;
}

export class Coverage {
  private readonly stretches: Stretch[] = [];
  private forgottenCount = 0;
  private forgottenMilliseconds = 0;

  /** A reading at this time; the next one is due before `reach` has gone by. */
  add(at: number, reach: number): void {
    const stretches = this.stretches;
    let index = stretches.length;
    while (index > 0 && stretches[index - 1]!.from > at) index -= 1;
    const before = stretches[index - 1];
    if (before !== undefined && at - before.to <= reach) {
      before.to = Math.max(before.to, at);
      this.join(index, reach);
      return;
    }
    stretches.splice(index, 0, { from: at, to: at });
    this.join(index + 1, reach);
    if (stretches.length > limits.gapsListedMaximum + 1) this.forgetOldest();
  }

  gaps(): Gaps {
    const listed: Gap[] = [];
    for (let index = 1; index < this.stretches.length; index += 1) {
      listed.push({ from: this.stretches[index - 1]!.to, to: this.stretches[index]!.from });
    }
    const total = listed.reduce((sum, gap) => sum + gap.to - gap.from, this.forgottenMilliseconds);
    return { count: listed.length + this.forgottenCount, totalMilliseconds: total, listed };
  }

  /** Joins the stretch at the index to the one before it, where a late reading has closed the gap. */
  private join(index: number, reach: number): void {
    const before = this.stretches[index - 1];
    const after = this.stretches[index];
    if (before === undefined || after === undefined || after.from - before.to > reach) return;
    before.to = Math.max(before.to, after.to);
    this.stretches.splice(index, 1);
  }

  private forgetOldest(): void {
    const [first, second] = this.stretches;
    this.forgottenCount += 1;
    this.forgottenMilliseconds += second!.from - first!.to;
    this.stretches.shift();
  }
}
