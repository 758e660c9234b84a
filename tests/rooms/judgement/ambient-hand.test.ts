/** What was suspected of a probe while its tip was held in a hand is withdrawn by the check; what was not, stays. */
import { expect, test } from 'vitest';
import { takeAmbientCheck } from '../../../server/judgement/ambient/check.ts';
import { close, open } from '../../../server/judgement/findings.ts';
import { rules } from '../../../server/judgement/rules.ts';
import { begin, type State } from '../../../server/judgement/state.ts';
import { after, type Instant, instant } from '../../../server/measure/quantity.ts';
import { plainJoint } from '../../support/plain-joint.ts';

const start = instant(Date.UTC(2026, 2, 2, 6, 0, 0));
const second = (seconds: number): Instant => after(start, seconds * 1000);

/** Suspected from and to, seconds; the tip is held from 600 to 620. */
function leftAfter(probe: string, from: number, to: number | undefined): string[] {
  const joint = plainJoint();
  const [first] = joint.probes.map(({ id }) => id) as [string];
  const state: State = begin(start, {
    kind: 'opened',
    joint,
    source: { kind: 'measured', detail: 'test' },
    periodMilliseconds: 1000,
    openedBy: 'Ada',
    rules: 'test',
    station: 'test',
  });
  state.now = second(1000);
  const suspected = probe === 'held' ? first : 'another';
  const key = open(state, 'probe suspect', second(from), { probe: suspected, sign: 'open' });
  if (to !== undefined) close(state, key, second(to));
  const check = {
    kind: 'ambient check' as const,
    airCelsius: 20,
    rest: joint.probes.map(({ id }) => ({ probe: id, celsius: 20 })),
    touches: [
      {
        probe: first,
        way: 'warmed' as const,
        from: second(600),
        until: second(620),
        readings: [{ probe: first, fromCelsius: 20, toCelsius: 23 }],
      },
    ],
  };
  takeAmbientCheck(state, check, 'Ada');
  return state.findings.filter(({ kind }) => kind === 'probe suspect').map((each) => each.probe!);
}

const felt = rules.handFeltFor / 1000;

test.each([
  ['while it was held', 605, 640, 0],
  ['as long before and after as a hand is felt', 600 - felt, 620 + felt, 0],
  ['from before that', 599 - felt, 640, 1],
  ['until after that', 605, 621 + felt, 1],
  ['and still', 605, undefined, 1],
])('of the probe that was held, %s', (_what, from, to, left) => {
  expect(leftAfter('held', from, to)).toHaveLength(left);
});

test('of another probe it stays', () => {
  expect(leftAfter('other', 605, 640)).toHaveLength(1);
});
