/** Every alarm and what people did about it; and what stood and was not announced, with the rule that says so. */
import { alarmPriority } from '../../judgement/alarm-rules.ts';
import type { Alarm, Shelving } from '../../judgement/assessment.ts';
import type { Instant } from '../../measure/quantity.ts';
import { alarmText, suppressionText } from '../../wording/alarm.ts';
import type { ReportFacts } from '../facts.ts';
import { type Block, paragraph } from '../page-model.ts';
import type { Times } from '../paper.ts';

/** The life of one alarm, as far as it was recorded. */
interface AlarmCourse {
  readonly alarm: Alarm;
  readonly taken: ReadonlyMap<Instant, string>;
  readonly shelvings: ReadonlyMap<Instant, Shelving>;
  readonly goneAt?: Instant;
}

export function alarmBlocks(facts: ReportFacts, times: Times): Block[] {
  const courses = alarmCourses(facts);
  const { units } = facts.assessment.requirement;
  const muted = courses.filter(({ alarm }) => isMuted(alarm));
  return [
    {
      kind: 'table',
      caption: 'Alarms',
      columns: [
        { heading: 'Since', share: 4 },
        { heading: 'Priority', share: 3 },
        { heading: 'What', share: 9 },
        { heading: 'Taken note of, or put aside', share: 8 },
        { heading: 'Back to normal', share: 4 },
      ],
      rows: courses
        .filter(({ alarm }) => !isMuted(alarm))
        .map((course) => [
          times.when(course.alarm.since),
          alarmPriority(course.alarm),
          alarmText(course.alarm, units).what,
          handlingText(course, times),
          returnedText(course, times),
        ]),
      empty: 'No alarm rang.',
    },
    ...(muted.length === 0 ? [] : [paragraph(mutedText(muted), 'small')]),
  ];
}

/** From what was recorded, so that alarms that came and went are there; without a record of them, those that still stand. */
function alarmCourses({ recordedConclusions, assessment }: ReportFacts): AlarmCourse[] {
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

const isMuted = ({ suppressed, announcedAt }: Alarm): boolean => suppressed !== undefined && announcedAt === undefined;

function handlingText({ taken, shelvings }: AlarmCourse, times: Times): string {
  const said = [
    ...[...taken].map(([at, who]) => ({ at, text: `by ${who}, ${times.when(at)}` })),
    ...[...shelvings.values()].map(({ at, until, by, reason }) => ({
      at,
      text: `put aside by ${by} from ${times.when(at)} to ${times.when(until)} at the latest: ${reason}`,
    })),
  ];
  if (said.length === 0) return 'by nobody';
  return said
    .toSorted((a, b) => a.at - b.at)
    .map(({ text }) => text)
    .join('; ');
}

function returnedText({ alarm, goneAt }: AlarmCourse, times: Times): string {
  const at = alarm.returnedAt ?? goneAt;
  return at === undefined ? 'not yet' : times.when(at);
}

function mutedText(muted: readonly AlarmCourse[]): string {
  const rules = new Map<string, number>();
  for (const { alarm } of muted) {
    const rule = suppressionText(alarm.suppressed!);
    rules.set(rule, (rules.get(rule) ?? 0) + 1);
  }
  return `Stood and was watched, and rang for nobody: ${[...rules].map(([rule, count]) => `${count} ${rule}`).join('; ')}.`;
}
