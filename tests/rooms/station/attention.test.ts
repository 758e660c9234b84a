import { expect, test } from 'vitest';
import type { Alarm } from '../../../server/judgement/assessment.ts';
import { attentionOf } from '../../../server/station/attention.ts';
import { simulatedJoint } from '../../simulation/job.ts';
import { assessment, at } from '../wording/sample-assessment.ts';

const alarm = (kind: Alarm['kind'], state: Alarm['state'] = 'active'): Alarm => ({ key: kind, kind, state, since: at });
const run = (id: string, alarms: Alarm[], facts = {}) => ({
  joint: { ...simulatedJoint, id },
  assessment: assessment({ alarms, ...facts }),
});

test('alarms of all open joints stand together, the most urgent first, in words', () => {
  const list = attentionOf([run('a', [alarm('probe fault')]), run('b', [alarm('below minimum')])]);
  expect(list.map(({ joint, priority }) => [joint, priority])).toEqual([
    ['b', 'high'],
    ['a', 'low'],
  ]);
  expect(list[0]!.what).toMatch(/^Below the minimum preheat/);
});

test('what was acknowledged, is normal again, or belongs to a closed joint calls nobody', () => {
  const quiet = [alarm('below minimum', 'active acknowledged'), alarm('probe fault', 'returned unacknowledged')];
  expect(attentionOf([run('a', quiet), run('b', [alarm('below minimum')], { phase: 'closed' })])).toEqual([]);
});

test('many alarms do not fill every screen each second: twenty, the most urgent', () => {
  const many = Array.from({ length: 30 }, (_, index) => run(`j${index}`, [alarm('probe fault')]));
  expect(attentionOf([...many, run('z', [alarm('below minimum')])])).toHaveLength(20);
  expect(attentionOf([...many, run('z', [alarm('below minimum')])])[0]!.joint).toBe('z');
});
