/** The list of joints, asked for each second while the overview is open: open ones are judged at the station, as of that answer. */
import { computed, signal } from '@preact/signals';
import type { JointsView } from '../../server/screen/contract.ts';
import { blindBounds } from '../feed/bounds.ts';
import { getJson } from '../feed/http.ts';
import type { Loading } from './joint.ts';
import { contact, monotonic, station } from './station.ts';

export const joints = signal<Loading<JointsView>>({ kind: 'loading' });
/** This device's monotonic clock at the last answer. */
const answeredAt = signal(Number.NEGATIVE_INFINITY);

/** The list is what the station says now. Otherwise it is what it was: no word for 3 s, or nothing is being recorded. */
export const isListCurrent = computed(
  () =>
    contact.value.kind === 'live' &&
    station.value?.recording !== false &&
    monotonic.value - answeredAt.value <= blindBounds.noWord,
);

const everyMilliseconds = 1_000;

/** Starts asking; the answer ends it. */
export const watchJoints = (): (() => void) => {
  let stopped = false;
  let timer: ReturnType<typeof setTimeout> | undefined;
  const ask = async (): Promise<void> => {
    const answer = await getJson<JointsView>('/api/joints');
    if (stopped) return;
    if (answer.kind === 'ok') {
      joints.value = { kind: 'there', value: answer.value };
      answeredAt.value = performance.now();
    } else if (joints.peek().kind !== 'there') joints.value = { kind: 'failed', why: 'unreachable' };
    timer = setTimeout(() => void ask(), everyMilliseconds);
  };
  void ask();
  return () => {
    stopped = true;
    clearTimeout(timer);
  };
};
