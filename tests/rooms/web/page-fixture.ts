/** One joint of the invented workshop at a minute of its run, as a page knows it. What it says comes from the judge. */
import { after, type Instant, instant } from '../../../server/measure/quantity.ts';
import type { StationView } from '../../../server/screen/contract.ts';
import { beginLive, type LiveJoint } from '../../../web/feed/live-joint.ts';
import { periodMilliseconds, type Run, type Script, startRun } from '../../support/station/run.ts';

export const openedAt = instant(Date.UTC(2026, 10, 25, 11, 0, 0));
export const zone = 'Europe/Berlin';

export interface Moment {
  readonly run: Run;
  readonly live: LiveJoint;
  readonly now: Instant;
}

export const momentOf = (script: Script, minutes: number): Moment => {
  const run = startRun(script, openedAt);
  const now = after(openedAt, minutes * 60_000);
  run.advance(now);
  return { run, now, live: liveOf(run) };
};

export const liveOf = (run: Run): LiveJoint =>
  beginLive({
    joint: run.script.joint,
    assessment: run.judge.assess(),
    courses: run.judge.courses(run.judge.assess().at),
    position: run.position,
    periodMilliseconds,
    headHash: 'a'.repeat(64),
    entries: run.entries.length,
  });

export const recording = (now: Instant): StationView => ({
  now,
  recording: true,
  demonstration: false,
  links: [],
  attention: [],
});
