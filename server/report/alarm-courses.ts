/** The life of each alarm of a joint, from what was recorded while it lived. */
import type { Alarm, Shelving } from '../judgement/assessment.ts';
import type { Instant } from '../measure/quantity.ts';
import type { ReportFacts } from './facts.ts';

/** The life of one alarm, as far as it was recorded. */
export interface AlarmCourse {
  readonly alarm: Alarm;
  readonly taken: ReadonlyMap<Instant, string>;
  readonly shelvings: ReadonlyMap<Instant, Shelving>;
  readonly goneAt?: Instant;
}

/** From what was recorded, so that alarms that came and went are there; without a record of them, those that still stand. */
export function alarmCourses({ recordedConclusions, assessment }: ReportFacts): AlarmCourse[] {
  if (recordedConclusions === undefined) return assessment.alarms.map((alarm) => followed(undefined, alarm));
  const courses = new Map<string, AlarmCourse>();
  for (const { at, conclusion } of recordedConclusions) {
    if (conclusion.kind !== 'alarm') continue;
    const { alarm, change } = conclusion;
    const key = `${alarm.key} ${alarm.since}`;
    const course = followed(courses.get(key), alarm);
    courses.set(key, change === 'gone' ? { ...course, goneAt: at } : course);
  }
  return [...courses.values()].toSorted((a, b) => a.alarm.since - b.alarm.since);
}

/** What was said of it once is kept: whoever put it aside did so, whatever became of it. */
function followed(course: AlarmCourse | undefined, alarm: Alarm): AlarmCourse {
  const { acknowledgedAt, acknowledgedBy, shelved } = alarm;
  const announcedAt = alarm.announcedAt ?? course?.alarm.announcedAt;
  return {
    alarm: { ...course?.alarm, ...alarm, ...(announcedAt === undefined ? {} : { announcedAt }) },
    taken: new Map([
      ...(course?.taken ?? []),
      ...(acknowledgedBy === undefined ? [] : [[acknowledgedAt ?? alarm.since, acknowledgedBy] as const]),
    ]),
    shelvings: new Map([
      ...(course?.shelvings ?? []),
      ...(shelved === undefined ? [] : [[shelved.at, shelved] as const]),
    ]),
  };
}

/** Of an alarm that has ended. */
export const endOf = ({ alarm, goneAt }: AlarmCourse): Instant | undefined => alarm.returnedAt ?? goneAt;

/** It stood, and was announced to nobody. */
export const isMuted = ({ alarm: { suppressed, announcedAt } }: AlarmCourse): boolean =>
  suppressed !== undefined && announcedAt === undefined;
