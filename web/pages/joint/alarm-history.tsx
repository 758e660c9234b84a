/** What became of each alarm, from the record, the newest first. */
import { useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import type { AlarmEvent } from '../../../server/screen/contract.ts';
import { getJson } from '../../feed/http.ts';
import type { LiveJoint } from '../../feed/live-joint.ts';
import { bound } from '../../format/bound.ts';
import { nearClockText } from '../../format/time.ts';
import { alarmHistory } from '../../parts/alarm/history.ts';

export function AlarmHistory({ live }: { readonly live: LiveJoint }) {
  const { assessment, joint } = live;
  const events = useSignal<readonly AlarmEvent[] | 'asked' | 'failed'>('asked');
  const turn = JSON.stringify(
    assessment.alarms.map(({ key, state, announcedAt, shelved }) => [key, state, announcedAt, shelved?.at]),
  );
  useEffect(() => {
    let left = false;
    void getJson<readonly AlarmEvent[]>(`/api/joints/${encodeURIComponent(joint.id)}/alarms`).then((answer) => {
      if (!left) events.value = answer.kind === 'ok' ? answer.value : 'failed';
    });
    return () => {
      left = true;
    };
  }, [joint.id, turn]);
  if (events.value === 'asked') return <p class="hint">Asking the station.</p>;
  if (events.value === 'failed') return <p class="hint">The station did not answer. Close this and open it again.</p>;
  const lines = alarmHistory(events.value, assessment.requirement.units).toReversed();
  if (lines.length === 0) return <p class="empty">No alarm rang.</p>;
  return (
    <ul class="plain-list alarm-history">
      {lines.map(({ at, what, change }) => (
        <li key={`${at} ${what} ${change}`}>
          <time>{nearClockText(at, assessment.at)}</time> {bound(what)}: <strong>{change}</strong>
        </li>
      ))}
    </ul>
  );
}
