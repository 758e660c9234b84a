/**
 * What the station says of the demonstration as it is played: the probes are checked while all is cold, the two faults
 * are named, nothing that is judged by hangs on them, and the core governs to the end.
 */
import { beforeAll, describe, expect, it } from 'vitest';
import { decode } from '../../../firmware-protocol/codec/decode.ts';
import type { Hello } from '../../../firmware-protocol/codec/frame.ts';
import type { Assessment } from '../../../server/judgement/assessment.ts';
import { createJudge } from '../../../server/judgement/judge.ts';
import { type Instant, instant } from '../../../server/measure/quantity.ts';
import { toScan } from '../../../server/reading/scan-of-sample.ts';
import { history, readDemonstrationJoint } from '../../../server/station/demonstration.ts';
import { demonstrationFaults } from '../../../server/station/demonstration-faults.ts';
import { createRound, readOf } from '../../../server/station/demonstration-round.ts';
import { setPointOf } from '../../../server/station/follow-acts.ts';
import { boardOf } from '../../../server/station/joint-board.ts';
import type { Act } from '../../../server/weld/entry.ts';

const joint = readDemonstrationJoint(new URL('../../../demo-data/demonstration-joint.json', import.meta.url));
const probeWith = (use: string): string => joint.probes.findLast((probe) => probe.use === use)!.id;
const stepMilliseconds = 5000;
const start = instant(Date.UTC(2026, 2, 2, 6, 0, 0));

/** What the judge said, minute by minute. */
function played(minutes: number): Assessment[] {
  const board = boardOf(joint, stepMilliseconds, 20, demonstrationFaults(joint, history.heatAfterMinutes));
  const round = createRound(joint, board);
  const judge = createJudge(start, {
    kind: 'opened',
    joint,
    source: { kind: 'simulated', detail: 'test' },
    periodMilliseconds: stepMilliseconds,
    openedBy: 'Imke Sorel',
    rules: 'test',
    station: 'test',
  });
  const act = (at: Instant, what: Act): void => void judge.take({ type: 'act', at, who: 'Imke Sorel', act: what });
  let hello: Hello | undefined;
  const course: Assessment[] = [];
  for (let passed = stepMilliseconds; passed <= minutes * 60_000; passed += stepMilliseconds) {
    const at = (start + passed) as Instant;
    for (const line of board.advance(stepMilliseconds).split('\n')) {
      const decoded = decode(line);
      if (!decoded.ok) continue;
      if (decoded.frame.kind === 'hello') hello = decoded.frame;
      if (decoded.frame.kind !== 'sample') continue;
      const scan = toScan({
        hello: hello!,
        sample: decoded.frame,
        probes: joint.probes,
        measuredAt: at,
        arrivedAt: at,
      });
      judge.take({ type: 'scan', scan });
    }
    if (passed < history.heatAfterMinutes * 60_000) {
      const check = round.advance(at, readOf(judge.assess()));
      if (check !== undefined) act(at, check);
    }
    if (passed === history.heatAfterMinutes * 60_000) {
      act(at, { kind: 'heat', state: 'on' });
      board.heater({ on: true, setPointCelsius: setPointOf(joint) });
    }
    if (passed % 60_000 === 0) course.push(judge.assess());
  }
  return course;
}

describe('the demonstration as the station sees it', () => {
  let course: Assessment[] = [];
  beforeAll(() => {
    course = played(history.minutes + 10);
  }, 120_000);
  const at = (minute: number): Assessment => course[minute - 1]!;

  it('has had its probes checked before the heat, all in order', () => {
    const made = at(history.heatAfterMinutes).ambientCheck?.made;
    expect(made?.probes.map(({ probe }) => probe)).toEqual(joint.probes.map(({ id }) => id));
    expect(made?.probes.filter(({ outcome }) => outcome !== 'in order')).toEqual([]);
    expect(made?.isOffAir).toBe(false);
    expect(at(history.minutes).findings.filter(({ kind }) => kind.startsWith('ambient check'))).toEqual([]);
    expect(at(history.heatAfterMinutes).findings.filter(({ kind }) => kind !== 'probe suspect')).toEqual([]);
  });

  it('names faults at the two probes that have them and nowhere else', () => {
    const suspects = at(history.minutes).findings.filter(({ kind }) => kind === 'probe suspect');
    const faulty = [probeWith('ambient'), probeWith('interpass')];
    expect(suspects.filter(({ probe }) => !faulty.includes(probe!))).toEqual([]);
    const stuck = suspects.find(({ sign, probe }) => sign === 'stuck' && probe === probeWith('ambient'));
    expect(stuck).toBeDefined();
    const fallen = suspects.filter(({ probe }) => probe === probeWith('interpass'));
    expect(fallen.map(({ sign }) => sign)).toContain('detached');
  });

  it('is not ready when its history ends, for the core alone, and ready two to four minutes later', () => {
    const open = at(history.minutes).conditions.filter(({ state }) => state !== 'met');
    expect(open.map(({ id }) => id)).toEqual(['through thickness']);
    const ready = course.findIndex((each) => each.ready) + 1;
    expect(ready - history.minutes).toBeGreaterThanOrEqual(2);
    expect(ready - history.minutes).toBeLessThanOrEqual(4);
    for (const each of course.slice(ready)) expect(each.ready).toBe(true);
    expect(at(history.minutes).alarms.filter(({ announcedAt }) => announcedAt !== undefined)).toEqual([]);
  });
});
