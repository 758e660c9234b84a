/**
 * Whether the welder of a pass was qualified for its process on that day, by what the station knew and wrote into the
 * start. Thickness, position and material stand in the certificate's own words and are compared by people. Where nobody
 * looked it up (no people at the station, or an imported log) nothing is said.
 */
import { endOfDay, monthsLater } from '../../weld/day.ts';
import type { Act } from '../../weld/entry.ts';
import type { Qualification } from '../../weld/qualification.ts';
import { note } from '../findings.ts';
import type { State } from '../state.ts';

export function noteQualification(state: State, act: Act & { kind: 'pass start' }): void {
  if (act.qualifications === undefined) return;
  const process = act.process ?? state.joint.process;
  const fitting = act.qualifications.filter(({ processes }) => processes.includes(process));
  const detail = { pass: act.pass, who: act.welder };
  if (fitting.length === 0) note(state, 'welder not qualified', state.now, detail);
  else if (!fitting.some((each) => holds(each, state.now))) note(state, 'qualification lapsed', state.now, detail);
}

/** To the end of its last day, and of the last day on which a confirmation counts. */
function holds({ validUntil, confirmedOn, confirmEveryMonths }: Qualification, now: number): boolean {
  if (validUntil !== undefined && now > endOfDay(validUntil)) return false;
  if (confirmEveryMonths === undefined) return true;
  return confirmedOn !== undefined && now <= endOfDay(monthsLater(confirmedOn, confirmEveryMonths));
}
