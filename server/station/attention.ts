/** Alarms of all open joints that nobody has acknowledged, most urgent first: what a screen sounds and notifies, whichever page it shows. */
import { alarmPriorities, alarmPriority, isRinging } from '../judgement/alarm-rules.ts';
import { limits } from '../measure/limits.ts';
import type { AttentionView } from '../screen/contract.ts';
import type { JointRun } from '../trip/joint-run.ts';
import { alarmText } from '../wording/alarm.ts';

export const attentionOf = (runs: readonly Pick<JointRun, 'joint' | 'assessment'>[]): AttentionView[] =>
  runs
    .filter(({ assessment }) => assessment.phase !== 'closed')
    .flatMap(({ joint, assessment }) =>
      assessment.alarms.filter(isRinging).map((alarm) => ({
        joint: joint.id,
        title: joint.title,
        key: alarm.key,
        priority: alarmPriority(alarm),
        what: alarmText(alarm, assessment.requirement.units).what,
      })),
    )
    .toSorted((a, b) => alarmPriorities.indexOf(a.priority) - alarmPriorities.indexOf(b.priority))
    .slice(0, limits.attentionMaximum);
