/** Alarms of all open joints that nobody has acknowledged, most urgent first: what a screen sounds and notifies, whichever page it shows. */
import type { Alarm } from '../judgement/assessment.ts';
import { limits } from '../measure/limits.ts';
import type { AttentionView } from '../screen/contract.ts';
import type { JointRun } from '../trip/joint-run.ts';
import { alarmText } from '../wording/alarm.ts';

export const attentionOf = (runs: readonly Pick<JointRun, 'joint' | 'assessment'>[]): AttentionView[] =>
  runs
    .filter(({ assessment }) => assessment.phase !== 'closed')
    .flatMap(({ joint, assessment }) =>
      assessment.alarms
        .filter(({ state }) => state === 'active')
        .map((alarm) => ({
          joint: joint.id,
          title: joint.title,
          key: alarm.key,
          priority: priorityOf(alarm),
          what: alarmText(alarm, assessment.requirement.units).what,
        })),
    )
    .toSorted((a, b) => urgency.indexOf(a.priority) - urgency.indexOf(b.priority))
    .slice(0, limits.attentionMaximum);

const urgency: readonly AttentionView['priority'][] = ['high', 'medium', 'low'];

const priorityOf = ({ kind }: Alarm): AttentionView['priority'] =>
  kind === 'probe fault' || kind === 'probe silent' ? 'low' : 'high';
