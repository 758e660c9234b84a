/** Whether what a person does about an alarm makes sense now: only what stands can be acknowledged or put aside, and not for longer than it is worth. */
import { alarmPriority, shelvedAtMost } from '../judgement/alarm-rules.ts';
import type { Assessment } from '../judgement/assessment.ts';
import type { Act } from '../weld/entry.ts';
import type { Problem } from '../weld/problems.ts';

type AlarmAct = Act & { kind: 'acknowledge' | 'shelve' | 'unshelve' };

export function alarmProblems(act: AlarmAct, { alarms, shelvings }: Assessment): Problem[] {
  const wrong = (allowed: string): Problem[] => [{ field: 'act.alarm', found: act.alarm, allowed }];
  const alarm = alarms.find((each) => each.key === act.alarm);
  switch (act.kind) {
    case 'acknowledge':
      if (alarm === undefined) return wrong('an alarm that stands; this one is gone');
      return alarm.announcedAt === undefined ? wrong('an alarm that was announced; this one was not') : [];
    case 'unshelve':
      return shelvings.some((each) => each.key === act.alarm)
        ? []
        : wrong('an alarm that is put aside now; this one is not, or its time is over');
    case 'shelve': {
      if (alarm === undefined) return wrong('an alarm that stands; this one is gone');
      if (alarm.state === 'returned unacknowledged')
        return wrong('an alarm that is still active; this one is back to normal: acknowledge it');
      const priority = alarmPriority(alarm);
      const most = shelvedAtMost[priority] / 60_000;
      return act.minutes <= most
        ? []
        : [
            {
              field: 'act.minutes',
              found: `${act.minutes} min`,
              allowed: `at most ${most} min for an alarm of ${priority} priority; put it aside again then if need be`,
            },
          ];
    }
  }
}
