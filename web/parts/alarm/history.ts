/** The changes of alarms, as they were recorded, in words. */
import type { Alarm } from '../../../server/judgement/assessment.ts';
import type { Instant } from '../../../server/measure/quantity.ts';
import type { UnitSystem } from '../../../server/measure/units.ts';
import type { AlarmEvent } from '../../../server/screen/contract.ts';
import { alarmText, suppressionText } from '../../../server/wording/alarm.ts';
import { clockMinuteText, type Zone } from '../../format/time.ts';

export interface AlarmChange {
  readonly at: Instant;
  readonly what: string;
  readonly change: string;
}

/** In the order of the record. One entry may tell of more than one change. */
export function alarmHistory(events: readonly AlarmEvent[], units: UnitSystem, zone?: Zone): AlarmChange[] {
  const before = new Map<string, Alarm>();
  return events.flatMap(({ at, change, alarm }) => {
    const earlier = before.get(alarm.key);
    if (change === 'gone') before.delete(alarm.key);
    else before.set(alarm.key, alarm);
    const { what } = alarmText(alarm, units);
    return changesOf(earlier, alarm, change, zone).map((each) => ({ at, what, change: each }));
  });
}

function changesOf(before: Alarm | undefined, now: Alarm, change: AlarmEvent['change'], zone: Zone): string[] {
  if (change === 'gone')
    return [before?.state === 'returned unacknowledged' ? 'acknowledged, and gone' : 'normal again, and gone'];
  const list: string[] = [];
  if (now.announcedAt !== undefined && now.announcedAt !== before?.announcedAt)
    list.push(before?.announcedAt === undefined ? 'rang' : 'rang again');
  if (now.suppressed !== undefined && now.suppressed !== before?.suppressed) list.push(suppressionText(now.suppressed));
  if (now.shelved !== undefined && now.shelved.at !== before?.shelved?.at) {
    const { by, until, reason } = now.shelved;
    list.push(`put aside by ${by} until ${clockMinuteText(until, zone)}: ${reason}`);
  }
  if (now.shelved === undefined && before?.shelved !== undefined) list.push('no longer put aside');
  if (now.acknowledgedBy !== undefined && before?.acknowledgedBy === undefined)
    list.push(`acknowledged by ${now.acknowledgedBy}`);
  if (now.state === 'returned unacknowledged' && before?.state !== now.state)
    list.push('back to normal, not acknowledged');
  return list.length > 0 ? list : ['changed'];
}
