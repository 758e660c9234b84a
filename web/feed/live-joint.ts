/**
 * One joint as this page knows it: a fold of what the station sends. Messages may come twice after a
 * break and are then taken once; the newest reading of each probe is what freshness is told from.
 */
import type { JointState, LiveMessage, LiveReading } from '../../server/screen/contract.ts';
import { grown } from './course.ts';
import { type Touches, takeTouch } from './touch.ts';

export interface LiveJoint extends JointState {
  /** Newest reading of each probe, good or not. */
  readonly newest: Readonly<Record<string, LiveReading>>;
  /** Which probes answered to a warm hand. */
  readonly touches: Touches;
}

/** From a whole state. Readings that are already newer than the state stay. */
export const beginLive = (state: JointState, before?: LiveJoint): LiveJoint => {
  const newest: Record<string, LiveReading> = { ...before?.newest };
  for (const probe of state.assessment.probes) {
    if (probe.measuredAt === undefined || probe.quality === undefined) continue;
    const known = newest[probe.probe];
    if (known !== undefined && known.at >= probe.measuredAt) continue;
    newest[probe.probe] = {
      probe: probe.probe,
      at: probe.measuredAt,
      quality: probe.quality,
      ...(probe.temperature === undefined ? {} : { temperature: probe.temperature }),
    };
  }
  const touches = before?.touches ?? {};
  if (before === undefined || before.position <= state.position) return { ...state, newest, touches };
  const { position, assessment, outlook } = before;
  const courses = grown(state.courses, assessment.sections);
  return { ...state, newest, touches, position, assessment, courses, ...(outlook === undefined ? {} : { outlook }) };
};

export const takeLive = (live: LiveJoint, message: LiveMessage): LiveJoint => {
  if (message.joint !== live.joint.id || message.position < live.position) return live;
  const newest: Record<string, LiveReading> = { ...live.newest };
  for (const reading of message.readings) {
    const known = newest[reading.probe];
    if (known === undefined || reading.at >= known.at) newest[reading.probe] = reading;
  }
  const touches = message.readings.reduce(takeTouch, live.touches);
  const { position, assessment = live.assessment, outlook = live.outlook } = message;
  const courses = message.assessment === undefined ? live.courses : grown(live.courses, assessment.sections);
  return { ...live, newest, touches, position, assessment, courses, ...(outlook === undefined ? {} : { outlook }) };
};

/** Something other than readings changed: the record's head, and perhaps the joint itself, are to be asked for again. */
export const hasTurned = (before: LiveJoint, after: LiveJoint): boolean => signature(before) !== signature(after);

const signature = ({ assessment }: LiveJoint): string =>
  JSON.stringify([
    assessment.phase,
    assessment.heat,
    assessment.heatSince,
    assessment.source.kind,
    assessment.limits,
    assessment.passes.length,
    assessment.passes.filter((pass) => pass.endedAt !== undefined).length,
    assessment.probes.map((probe) => probe.probe),
    assessment.alarms.map((alarm) => [alarm.key, alarm.state, alarm.suppressed]),
    assessment.shelvings.map((each) => [each.key, each.until]),
  ]);
