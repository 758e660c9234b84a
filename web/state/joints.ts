/** The list of joints, asked for each second while the overview is open: it is judged at the station, as of that answer. */
import { signal } from '@preact/signals';
import type { JointSummary } from '../../server/screen/contract.ts';
import { getJson } from '../feed/http.ts';
import type { Loading } from './joint.ts';

export const joints = signal<Loading<readonly JointSummary[]>>({ kind: 'loading' });

const everyMilliseconds = 1_000;

/** Starts asking; the answer ends it. */
export const watchJoints = (): (() => void) => {
  let stopped = false;
  let timer: ReturnType<typeof setTimeout> | undefined;
  const ask = async (): Promise<void> => {
    const answer = await getJson<readonly JointSummary[]>('/api/joints');
    if (stopped) return;
    if (answer.kind === 'ok') joints.value = { kind: 'there', value: answer.value };
    else if (joints.peek().kind !== 'there') joints.value = { kind: 'failed', why: 'unreachable' };
    timer = setTimeout(() => void ask(), everyMilliseconds);
  };
  void ask();
  return () => {
    stopped = true;
    clearTimeout(timer);
  };
};
