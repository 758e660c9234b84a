/** A list of alarms with what a person does about each. */
import type { JointSummary } from '../../../server/screen/contract.ts';
import { AlarmLine } from './line.tsx';
import { alarmEntries } from './model.ts';

interface Props {
  readonly joints: readonly JointSummary[];
  /** The joints are named in each line, with a way to them. */
  readonly named?: boolean;
  /** Something was recorded. */
  readonly changed: () => void;
}

export function AlarmList({ joints, named = false, changed }: Props) {
  return (
    <ul class="alarm-list">
      {alarmEntries(joints).map((entry) => (
        <AlarmLine key={`${entry.alarm.key} ${entry.joints[0]!.id}`} entry={entry} named={named} changed={changed} />
      ))}
    </ul>
  );
}
