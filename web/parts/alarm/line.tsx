/** One alarm: how urgent, what, since when, where, what to do first; acknowledged in one gesture by who is named above. */
import { useSignal } from '@preact/signals';
import { type AlarmPriority, alarmPriority, isRinging } from '../../../server/judgement/alarm-rules.ts';
import type { Instant } from '../../../server/measure/quantity.ts';
import { priorityText } from '../../../server/wording/alarm.ts';
import { alarmStateText } from '../../../server/wording/words.ts';
import { bound } from '../../format/bound.ts';
import { ageText, nearClockText } from '../../format/time.ts';
import { jointAddress } from '../../state/route.ts';
import { serverSecond } from '../../state/station.ts';
import { Glyph, type GlyphName } from '../glyph.tsx';
import { AsideForm } from './aside-form.tsx';
import type { AlarmEntry } from './model.ts';
import { useAlarmAct } from './use-alarm-act.ts';

export const priorityGlyph: Readonly<Record<AlarmPriority, GlyphName>> = {
  high: 'alarm',
  medium: 'alarm-medium',
  low: 'alarm-low',
};

interface Props {
  readonly entry: AlarmEntry;
  readonly named: boolean;
  readonly changed: () => void;
}

export function AlarmLine({ entry, named, changed }: Props) {
  const { alarm, joints, what, where, why, firstCheck } = entry;
  const { failure, sending, send } = useAlarmAct(joints, changed);
  const aside = useSignal(false);
  const priority = alarmPriority(alarm);
  const open = alarm.state !== 'returned unacknowledged';
  return (
    <li class={`alarm ${priority} ${alarm.state.replaceAll(' ', '-')}`}>
      <Glyph name={priorityGlyph[priority]} size={36} />
      <div class="alarm-words" role={isRinging(alarm) ? 'alert' : undefined}>
        <p class="alarm-what">
          <strong>{bound(what)}</strong>
        </p>
        {named && (
          <p>
            {joints.map(({ id, title }, index) => (
              <span key={id}>
                {index > 0 && ', '}
                <a href={jointAddress(id)}>{title}</a>
              </span>
            ))}
          </p>
        )}
        {where !== '' && <p>{bound(where)}.</p>}
        <p>
          {priorityText(priority)}. {alarmStateText(alarm.state)}
          {alarm.acknowledgedBy !== undefined && ` by ${alarm.acknowledgedBy}`}; since {sinceText(alarm.since)}.
        </p>
        {open && (
          <p>
            <strong>First:</strong> {firstCheck} <span>{why}</span>
          </p>
        )}
        {failure !== undefined && (
          <p role="alert">
            <strong>{failure}</strong>
          </p>
        )}
      </div>
      <div class="alarm-acts">
        {alarm.state !== 'active acknowledged' && (
          <button
            type="button"
            class="act"
            disabled={sending}
            onClick={() => void send({ kind: 'acknowledge', alarm: alarm.key })}
            aria-label={`Acknowledge: ${what}`}
          >
            Acknowledge
          </button>
        )}
        {open && !aside.value && (
          <button
            type="button"
            class="plain"
            onClick={() => {
              aside.value = true;
            }}
            aria-label={`Put aside: ${what}`}
          >
            Put aside
          </button>
        )}
      </div>
      {open && aside.value && (
        <AsideForm
          alarm={alarm}
          what={what}
          sending={sending}
          send={send}
          back={() => {
            aside.value = false;
          }}
        />
      )}
    </li>
  );
}

function sinceText(since: Instant): string {
  const now = serverSecond.value;
  return now === undefined ? '' : `${nearClockText(since, now)} (${ageText(now - since)})`;
}
