/** Alarms in words: what, since when, what to look at first; acknowledged by name. They leave when they are normal and acknowledged. */
import { useSignal } from '@preact/signals';
import type { Alarm } from '../../../server/judgement/assessment.ts';
import type { UnitSystem } from '../../../server/measure/units.ts';
import { alarmText } from '../../../server/wording/alarm.ts';
import { alarmStateText } from '../../../server/wording/words.ts';
import { actKey } from '../../feed/http.ts';
import type { LiveJoint } from '../../feed/live-joint.ts';
import { nearClockText } from '../../format/time.ts';
import { Glyph } from '../../parts/glyph.tsx';
import { sendAct } from '../../state/acts.ts';
import { person } from '../../state/person.ts';
import { serverSecond } from '../../state/station.ts';

export function Alarms({ live, changed }: { readonly live: LiveJoint; readonly changed: () => void }) {
  const { alarms } = live.assessment;
  if (alarms.length === 0) return null;
  return (
    <section class="alarms" aria-label="Alarms">
      <h2 class="unseen">Alarms</h2>
      <ul>
        {alarms.map((alarm) => (
          <AlarmLine
            key={alarm.key}
            alarm={alarm}
            joint={live.joint.id}
            units={live.assessment.requirement.units}
            changed={changed}
          />
        ))}
      </ul>
    </section>
  );
}

function AlarmLine({
  alarm,
  joint,
  units,
  changed,
}: {
  readonly alarm: Alarm;
  readonly joint: string;
  readonly units: UnitSystem;
  readonly changed: () => void;
}) {
  const failure = useSignal<string | undefined>(undefined);
  const sending = useSignal(false);
  const key = useSignal(actKey());
  const now = serverSecond.value;
  const { what, firstCheck } = alarmText(alarm, units);
  const acknowledge = async (): Promise<void> => {
    const who = person.peek();
    if (who === undefined) {
      failure.value = 'Say who you are first, at the top of the page.';
      return;
    }
    sending.value = true;
    const sent = await sendAct(joint, who, { kind: 'acknowledge', alarm: alarm.key }, key.peek());
    sending.value = false;
    failure.value =
      sent.kind === 'recorded'
        ? undefined
        : sent.kind === 'not recorded'
          ? sent.why
          : Object.values(sent.problems).join('; ');
    if (sent.kind === 'recorded') changed();
  };
  return (
    <li class={`alarm ${alarm.state.replaceAll(' ', '-')}`}>
      <Glyph name="alarm" size={32} />
      <div class="alarm-words" role={alarm.state === 'active' ? 'alert' : undefined}>
        <p class="alarm-what">
          <strong>{what}</strong>
        </p>
        <p>
          {alarmStateText(alarm.state)}, since {now === undefined ? '' : nearClockText(alarm.since, now)}
          {alarm.acknowledgedBy !== undefined && ` by ${alarm.acknowledgedBy}`}.
        </p>
        {alarm.state !== 'returned unacknowledged' && <p>First: {firstCheck}</p>}
        {failure.value !== undefined && (
          <p role="alert">
            <strong>{failure.value}</strong>
          </p>
        )}
      </div>
      {alarm.state !== 'active acknowledged' && (
        <button
          type="button"
          class="act"
          disabled={sending.value}
          onClick={() => void acknowledge()}
          aria-label={`Acknowledge: ${what}`}
        >
          Acknowledge
        </button>
      )}
    </li>
  );
}
