/**
 * Alarms as a screen lists them: of one joint or of all joints of the station, the most urgent first. A board that
 * serves several joints is one line, and is acknowledged for all of them at once.
 */
import {
  type AlarmPriority,
  alarmPriorities,
  alarmPriority,
  isRinging,
  isTold,
  shelvedAtMost,
} from '../../../server/judgement/alarm-rules.ts';
import type { Alarm, Shelving } from '../../../server/judgement/assessment.ts';
import { instant } from '../../../server/measure/quantity.ts';
import type { JointSummary } from '../../../server/screen/contract.ts';
import { type AlarmWords, alarmText } from '../../../server/wording/alarm.ts';
import { placeText } from '../../../server/wording/words.ts';

export interface AlarmEntry extends AlarmWords {
  readonly alarm: Alarm;
  readonly joints: readonly { readonly id: string; readonly title: string }[];
  /** In words where to look; empty where the alarm is of no one place. */
  readonly where: string;
}

/** Those that people are to see to. What is put aside or held back is listed by `asideOf` and `heldBackOf`. */
export const alarmEntries = (joints: readonly JointSummary[]): AlarmEntry[] =>
  joints
    .flatMap((joint) => joint.assessment.alarms.filter(isTold).map((alarm) => entryOf(joint, alarm)))
    .reduce<AlarmEntry[]>(merged, [])
    .toSorted(
      (a, b) =>
        Number(isRinging(b.alarm)) - Number(isRinging(a.alarm)) ||
        rank(a.alarm) - rank(b.alarm) ||
        a.alarm.since - b.alarm.since,
    );

export const asideOf = ({ assessment }: JointSummary): readonly Shelving[] => assessment.shelvings;

export const heldBackOf = ({ assessment }: JointSummary): readonly Alarm[] =>
  assessment.alarms.filter((alarm) => alarm.suppressed !== undefined && alarm.shelved === undefined);

/** Minutes for which an alarm may be put aside, longest last. */
export const asideChoices = (alarm: Alarm): readonly number[] => {
  const most = shelvedAtMost[alarmPriority(alarm)] / 60_000;
  return [5, 10, 30, 60, 240, 480].filter((minutes) => minutes <= most).slice(-3);
};

/** The most urgent alarm of each probe that people are to see to, for marks on a drawing. */
export function alarmedPlaces(alarms: readonly Alarm[]): ReadonlyMap<string, AlarmPriority> {
  const marks = new Map<string, AlarmPriority>();
  const open = alarms.filter((alarm) => isTold(alarm) && alarm.state !== 'returned unacknowledged');
  for (const alarm of open.toSorted((a, b) => rank(b) - rank(a)))
    for (const probe of alarm.probes ?? (alarm.probe === undefined ? [] : [alarm.probe]))
      marks.set(probe, alarmPriority(alarm));
  return marks;
}

const rank = (alarm: Alarm): number => alarmPriorities.indexOf(alarmPriority(alarm));

const entryOf = (joint: JointSummary, alarm: Alarm): AlarmEntry => ({
  alarm,
  joints: [{ id: joint.id, title: joint.title }],
  where: whereOf(joint, alarm),
  ...alarmText(alarm, joint.assessment.requirement.units),
});

function whereOf({ assessment }: JointSummary, { probe }: Alarm): string {
  const place = assessment.probes.find((each) => each.probe === probe)?.place;
  return place === undefined ? '' : placeText(place, assessment.requirement.units);
}

function merged(list: AlarmEntry[], entry: AlarmEntry): AlarmEntry[] {
  const { alarm } = entry;
  const same = (each: AlarmEntry): boolean =>
    alarm.kind === 'board silent' && each.alarm.key === alarm.key && each.alarm.state === alarm.state;
  const before = list.find(same);
  if (before === undefined) return [...list, entry];
  const since = instant(Math.min(before.alarm.since, alarm.since));
  const joints = [...before.joints, ...entry.joints];
  const what = `Board ${alarm.board ?? ''} fell silent: nothing that it measures for ${joints.length} joints is judged while it is`;
  return list.map((each) => (each === before ? { ...before, alarm: { ...before.alarm, since }, joints, what } : each));
}
