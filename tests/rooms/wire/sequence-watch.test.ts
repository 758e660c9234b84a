import { describe, expect, it } from 'vitest';
import { limits } from '../../../server/measure/limits.ts';
import { createSequenceWatch } from '../../../server/wire/sequence-watch.ts';

describe('the watch over sequence numbers', () => {
  it('counts what is left out, not what came before the first line heard', () => {
    const watch = createSequenceWatch();
    watch.restart(false);
    expect([100, 101, 105].map((sequence) => watch.isNew(sequence, false))).toEqual([true, true, true]);
    expect(watch.missing()).toBe(3);
  });

  it('counts the first lines of a new start of a board that was watched before', () => {
    const watch = createSequenceWatch();
    watch.restart(false);
    watch.isNew(7, false);
    watch.restart(true);
    watch.isNew(2, false);
    expect(watch.missing()).toBe(2);
  });

  it('takes each line once, whether new or sent again', () => {
    const watch = createSequenceWatch();
    watch.restart(false);
    watch.isNew(10, false);
    watch.isNew(13, false);
    expect(watch.isNew(13, false)).toBe(false);
    expect(watch.isNew(12, false)).toBe(false);
    expect([12, 11, 10, 13, 12].map((sequence) => watch.isNew(sequence, true))).toEqual([
      true,
      true,
      false,
      false,
      false,
    ]);
    expect([9, 9].map((sequence) => watch.isNew(sequence, true))).toEqual([true, false]);
    expect(watch.missing()).toBe(0);
  });

  it('takes a line that is sent again before it ever came through as the newest, once', () => {
    const watch = createSequenceWatch();
    watch.restart(false);
    watch.isNew(10, false);
    expect([14, 14, 12].map((sequence) => watch.isNew(sequence, true))).toEqual([true, false, true]);
    expect(watch.isNew(15, false)).toBe(true);
    expect([watch.missing(), watch.lowestMissing(0)]).toEqual([2, 11]);
    watch.giveUp(11, 13);
    expect([watch.isNew(11, true), watch.missing(), watch.lowestMissing(0)]).toEqual([false, 2, undefined]);
  });

  it('remembers a bounded number of gaps and counts all', () => {
    const watch = createSequenceWatch();
    watch.restart(false);
    watch.isNew(0, false);
    const beyond = limits.missingRememberedMaximum + 500;
    watch.isNew(beyond, false);
    expect(watch.missing()).toBe(beyond - 1);
    // The oldest were forgotten: sent again they are no longer taken, since it is not known whether they came.
    expect(watch.isNew(1, true)).toBe(false);
    expect(watch.isNew(beyond - 1, true)).toBe(true);
    watch.isNew(4_294_967_295, false);
    // All but the first, the last, and the two that came between.
    expect(watch.missing()).toBe(4_294_967_296 - 4);
  });
});
