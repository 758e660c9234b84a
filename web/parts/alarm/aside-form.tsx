/** Putting an alarm aside: why, and for how long. It is told that it comes back by itself. */
import { useSignal } from '@preact/signals';
import type { Alarm } from '../../../server/judgement/assessment.ts';
import type { Act } from '../../../server/weld/entry.ts';
import { durationText } from '../../../server/wording/time.ts';
import { ChoiceField, TextField } from '../field.tsx';
import { asideChoices } from './model.ts';

interface Props {
  readonly alarm: Alarm;
  readonly what: string;
  readonly sending: boolean;
  readonly send: (act: Act) => Promise<boolean>;
  readonly back: () => void;
}

export function AsideForm({ alarm, what, sending, send, back }: Props) {
  const choices = asideChoices(alarm);
  const minutes = useSignal(choices[0]!);
  const reason = useSignal('');
  const problem = useSignal<string | undefined>(undefined);
  const submit = async (): Promise<void> => {
    const why = reason.value.trim();
    problem.value = why === '' ? 'Say why: whoever comes next reads it.' : undefined;
    if (why === '') return;
    if (await send({ kind: 'shelve', alarm: alarm.key, minutes: minutes.value, reason: why })) back();
  };
  return (
    <form
      class="alarm-aside"
      aria-label={`Put aside: ${what}`}
      onSubmit={(event) => {
        event.preventDefault();
        void submit();
      }}
    >
      <p>It stays in the record and comes back by itself when the time is over, if it still stands.</p>
      <ChoiceField
        label="For"
        value={String(minutes.value)}
        choices={choices.map((each) => ({ value: String(each), text: lengthOf(each) }))}
        onValue={(value) => {
          minutes.value = Number(value);
        }}
      />
      <TextField
        label="Why"
        wide
        value={reason.value}
        problem={problem.value}
        onValue={(value) => {
          reason.value = value;
          problem.value = undefined;
        }}
      />
      <div class="row end">
        <button type="button" class="plain" onClick={back}>
          Back
        </button>
        <button type="submit" class="act" disabled={sending}>
          Put aside for {lengthOf(minutes.value)}
        </button>
      </div>
    </form>
  );
}

const lengthOf = (minutes: number): string => durationText((minutes * 60_000) as Parameters<typeof durationText>[0]);
