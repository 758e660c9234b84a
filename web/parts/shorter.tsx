/** A long list shows a few of its members, and all of them on demand: a joint may have two thousand passes. */
import { useSignal } from '@preact/signals';
import type { ComponentChild } from 'preact';

const shortLength = 20;

/** The members to show, and the button that shows the rest, where there is a rest. */
export const useShorter = <T,>(
  list: readonly T[],
  what: string,
  few: 'the last' | 'the first' = 'the last',
): readonly [readonly T[], ComponentChild] => {
  const all = useSignal(false);
  if (all.value || list.length <= shortLength) return [list, null];
  const button = (
    <button
      type="button"
      class="plain"
      onClick={() => {
        all.value = true;
      }}
    >
      Show all {list.length} {what}
    </button>
  );
  return [few === 'the last' ? list.slice(-shortLength) : list.slice(0, shortLength), button];
};
