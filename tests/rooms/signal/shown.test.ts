/** What lamp, horn and permission say of a joint. The mapping is this project's own choice; that acknowledging silences follows IEC 62682 (second-hand). */
import { describe, expect, test } from 'vitest';
import type { Alarm } from '../../../server/judgement/assessment.ts';
import type { Condition } from '../../../server/judgement/condition.ts';
import { shownFor, shownOf, shownTogether } from '../../../server/signal/shown.ts';
import { assessment, at } from '../wording/sample-assessment.ts';

const alarm = (state: Alarm['state']): Alarm => ({
  key: 'highest',
  kind: 'above highest temperature',
  state,
  since: at,
});
const met = (id: Condition['id']): Condition => ({ id, state: 'met', reason: 'ok' });
const running = (...conditions: Condition[]) => assessment({ phase: 'pass running', ready: false, conditions });
const kept = [met('minimum stated'), met('minimum reached'), met('highest temperature')];

describe('permission', () => {
  test('is given to a joint that is ready and to a pass that keeps its limits, and to nothing else', () => {
    expect(shownOf(assessment({ phase: 'ready', ready: true })).permission).toBe('given');
    expect(shownOf(running(...kept)).permission).toBe('given');
    for (const phase of ['planned', 'heating', 'equalising', 'between passes', 'closed'] as const)
      expect(shownOf(assessment({ phase })).permission, phase).toBe('withheld');
  });

  test('is taken from a pass below its minimum, and from one whose minimum cannot be judged', () => {
    const below: Condition = { id: 'minimum reached', state: 'not met', reason: 'below minimum' };
    const blind: Condition = { id: 'minimum reached', state: 'not judged', reason: 'no trusted fresh reading' };
    for (const each of [below, blind])
      expect(shownOf(running(met('minimum stated'), each))).toMatchObject({ permission: 'withheld', lamp: 'fast' });
  });

  test('is not taken from a pass for what was asked at its start only, nor where no limit is stated', () => {
    const soak: Condition = { id: 'soak', state: 'not met', reason: 'heat is on' };
    const evenness: Condition = { id: 'evenness', state: 'not judged', reason: 'no limit stated' };
    expect(shownOf(running(...kept, soak, evenness)).permission).toBe('given');
  });

  test('of a board with several joints is given only where each of them gives it', () => {
    const [ready, waiting] = [shownFor('ready'), shownFor('waiting')];
    expect(shownTogether([ready, shownFor('pass within limits')]).permission).toBe('given');
    expect(shownTogether([ready, waiting])).toMatchObject({ permission: 'withheld', lamp: 'slow' });
    expect(shownTogether([])).toMatchObject({ permission: 'withheld', lamp: 'off', horn: 'off' });
  });
});

describe('the horn', () => {
  const ready = { phase: 'ready', ready: true } as const;

  test('sounds for an alarm that nobody has acknowledged, and acknowledging silences it', () => {
    expect(shownOf(assessment({ ...ready, alarms: [alarm('active')] }))).toMatchObject({ horn: 'on', lamp: 'fast' });
    for (const state of ['active acknowledged', 'returned unacknowledged'] as const)
      expect(shownOf(assessment({ ...ready, alarms: [alarm(state)] })), state).toMatchObject({
        horn: 'off',
        lamp: 'on',
      });
  });

  test('is not for what can wait, nor for an alarm that is put aside or held back', () => {
    const quiet: Alarm[] = [
      { ...alarm('active'), kind: 'probe fault' },
      { ...alarm('active'), suppressed: 'board silent' },
      {
        ...alarm('active'),
        shelved: { key: 'highest', kind: 'above highest temperature', by: 'Ada', reason: 'known', at, until: at },
      },
    ];
    for (const each of quiet)
      expect(shownOf(assessment({ ...ready, alarms: [each] }))).toMatchObject({ horn: 'off', lamp: 'on' });
  });

  test('leaves the permission of a ready joint as it is, and gives none to another', () => {
    expect(shownOf(assessment({ ...ready, alarms: [alarm('active')] })).permission).toBe('given');
    expect(shownOf(assessment({ phase: 'heating', alarms: [alarm('active')] })).permission).toBe('withheld');
  });

  test('is silent where no acknowledgement could be recorded, and on a closed joint', () => {
    expect(shownFor('not known')).toMatchObject({ horn: 'off', lamp: 'fast', permission: 'withheld' });
    expect(shownOf(assessment({ phase: 'closed', alarms: [alarm('active')] })).horn).toBe('off');
  });
});
