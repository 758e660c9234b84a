/** Every alarm and what people did about it; and what stood and was not announced, with the rule that says so. */
import { alarmPriority } from '../../judgement/alarm-rules.ts';
import { alarmText, suppressionText } from '../../wording/alarm.ts';
import { type AlarmCourse, alarmCourses, endOf, isMuted } from '../alarm-courses.ts';
import type { ReportFacts } from '../facts.ts';
import { type Block, paragraph } from '../page-model.ts';
import type { Times } from '../paper.ts';

export function alarmBlocks(facts: ReportFacts, times: Times): Block[] {
  const courses = alarmCourses(facts);
  const { units } = facts.assessment.requirement;
  const muted = courses.filter(isMuted);
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
        .filter((course) => !isMuted(course))
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

function returnedText(course: AlarmCourse, times: Times): string {
  const at = endOf(course);
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
