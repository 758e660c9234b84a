/** Alarms of this joint: those to see to, then what is put aside, what a rule holds back, and what was. */
import { useSignal } from '@preact/signals';
import type { Alarm, Shelving } from '../../../server/judgement/assessment.ts';
import type { JointSummary } from '../../../server/screen/contract.ts';
import { alarmKeyText, alarmText, suppressionText } from '../../../server/wording/alarm.ts';
import { begun } from '../../../server/wording/list.ts';
import type { LiveJoint } from '../../feed/live-joint.ts';
import { bound } from '../../format/bound.ts';
import { clockMinuteText } from '../../format/time.ts';
import { AlarmList } from '../../parts/alarm/list.tsx';
import { alarmEntries, asideOf, heldBackOf } from '../../parts/alarm/model.ts';
import { useAlarmAct } from '../../parts/alarm/use-alarm-act.ts';
import { AlarmHistory } from './alarm-history.tsx';

interface Props {
  readonly live: LiveJoint;
  readonly changed: () => void;
}

export function Alarms({ live, changed }: Props) {
  const joint = summaryOf(live);
  return alarmEntries([joint]).length === 0 ? null : (
    <section class="alarms" aria-label="Alarms">
      <h2 class="unseen">Alarms</h2>
      <AlarmList joints={[joint]} changed={changed} />
    </section>
  );
}

/** Never in the way of what has to be seen to: folded, with how many there are. */
export function QuietAlarms({ live, changed }: Props) {
  const joint = summaryOf(live);
  const [aside, held] = [asideOf(joint), heldBackOf(joint)];
  const { units } = live.assessment.requirement;
  const historyOpen = useSignal(false);
  return (
    <section class="sheet" aria-labelledby="alarms-quiet-heading">
      <div class="sheet-head">
        <h2 id="alarms-quiet-heading">Alarms so far</h2>
      </div>
      {aside.length > 0 && (
        <ul class="plain-list">
          {aside.map((each) => (
            <AsideLine key={each.key} shelving={each} joint={joint} changed={changed} />
          ))}
        </ul>
      )}
      {held.length > 0 && (
        <details>
          <summary>Held back by a rule: {held.length}</summary>
          <ul class="plain-list">
            {held.map((alarm: Alarm) => (
              <li key={alarm.key}>
                {bound(alarmText(alarm, units).what)}: {suppressionText(alarm.suppressed!)}.
              </li>
            ))}
          </ul>
        </details>
      )}
      <details
        onToggle={(event) => {
          historyOpen.value = event.currentTarget.open;
        }}
      >
        <summary>What rang, and who saw to it</summary>
        {historyOpen.value && <AlarmHistory live={live} />}
      </details>
    </section>
  );
}

function AsideLine({
  shelving,
  joint,
  changed,
}: {
  readonly shelving: Shelving;
  readonly joint: JointSummary;
  readonly changed: () => void;
}) {
  const { failure, sending, send } = useAlarmAct([joint], changed);
  const { key, by, reason, until } = shelving;
  const name = begun(alarmKeyText(key));
  const stands = joint.assessment.alarms.some((alarm) => alarm.key === key);
  return (
    <li class="aside-line">
      <span>
        <strong>{name}</strong>: put aside by {by} until {clockMinuteText(until)}: {reason}. It{' '}
        {stands ? 'still stands.' : 'is normal now.'}
        {failure !== undefined && <strong role="alert"> {failure}</strong>}
      </span>
      <button
        type="button"
        class="plain"
        disabled={sending}
        onClick={() => void send({ kind: 'unshelve', alarm: key })}
        aria-label={`Take up again: ${name}`}
      >
        Take up again
      </button>
    </li>
  );
}

const summaryOf = ({ joint: { id, title }, assessment }: LiveJoint): JointSummary => ({ id, title, assessment });
