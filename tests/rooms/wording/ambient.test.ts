/** Words of the check at ambient. */
import { expect, test } from 'vitest';
import type { AmbientOutcome } from '../../../server/judgement/ambient/touch.ts';
import { ambientOutcomes } from '../../../server/judgement/ambient/touch.ts';
import type { Finding } from '../../../server/judgement/assessment.ts';
import type { Instant, Millikelvin } from '../../../server/measure/quantity.ts';
import { checkText, outcomeAdvice, outcomeText, restText } from '../../../server/wording/ambient.ts';
import { findingText } from '../../../server/wording/finding.ts';

const outcomes = ['in order', ...Object.keys(outcomeAdvice)] as AmbientOutcome[];

test.each(outcomes)('%s: a phrase, and as a finding what, why and what to do first', (outcome) => {
  for (const more of [{}, { other: 'T2', moved: -2100 as Millikelvin, apart: 4200 as Millikelvin }]) {
    const phrase = outcomeText({ outcome, ...more }, 'metric');
    expect(phrase).toMatch(/^[a-z].*[^.]$|^T2 /);
    expect(phrase).not.toMatch(/undefined|NaN/);
  }
  const finding: Finding = {
    key: 'k',
    kind: 'ambient check failed',
    severity: 'remark',
    probe: 'T1',
    outcome,
    against: 'T2',
    from: 1 as Instant,
    knownAt: 1 as Instant,
  };
  const { what, why, first } = findingText(finding, 'metric');
  expect(what).toMatch(/^[A-Z].*[^.]$/);
  for (const sentence of [why, first]) expect(sentence).toMatch(/^[A-Z].*\.$/);
});

test('the whole check is one line, in the units of the job', () => {
  const check = {
    airCelsius: 15.5,
    rest: [
      { probe: 'T1', celsius: 15.8 },
      { probe: 'T2', celsius: 16.1 },
    ],
    touches: (['T1', 'T2'] as const).map((probe) => ({
      probe,
      way: 'warmed' as const,
      from: 1,
      until: 2,
      readings: [{ probe, fromCelsius: 15.8, toCelsius: 18.3 }],
    })),
  };
  expect(checkText(check, ambientOutcomes(check), 'metric')).toBe(
    'Probes checked at ambient: all 2 in order. At rest 2 probes within 0.3 K, +0.5 K from the air of 15.5 °C',
  );
  const untouched = { ...check, touches: check.touches.slice(0, 1) };
  expect(checkText(untouched, ambientOutcomes(untouched), 'metric')).toContain('T2 not touched. At rest');
  expect(restText(ambientOutcomes(check), 15.5, 'inch')).toBe(
    '2 probes within 0.6 °F, +0.8 °F from the air of 59.9 °F',
  );
  const dead = { ...check, rest: [{ probe: 'T1' }], touches: [] };
  expect(restText(ambientOutcomes(dead), 15.5, 'metric')).toBe('no probe read; the air of 15.5 °C');
});
