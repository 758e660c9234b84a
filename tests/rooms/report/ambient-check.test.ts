/** The check of the probes at ambient on paper. */
import { expect, test, vi } from 'vitest';
import type { AmbientStatus } from '../../../server/judgement/ambient/status.ts';
import { ambientOutcomes } from '../../../server/judgement/ambient/touch.ts';
import type { ReportFacts } from '../../../server/report/facts.ts';
import { modelText, sectionText } from '../../../server/report/page-model.ts';
import { pages } from '../../../server/report/pages.ts';
import type { AmbientCheck } from '../../../server/weld/ambient-check.ts';
import { reportFacts } from '../../support/report-fixture.ts';

// Judging hours of readings takes a while on a busy machine; nothing here is judged by time.
vi.setConfig({ testTimeout: 60_000 });

const facts = reportFacts({ hours: 2, passes: 0 });
const withCheck = (ambientCheck: AmbientStatus): ReportFacts => ({
  ...facts,
  assessment: { ...facts.assessment, ambientCheck },
});
const setUp = (of: ReportFacts): string =>
  sectionText(pages(of).sections.find(({ heading }) => heading === 'Probes and set-up')!);

const check: AmbientCheck = {
  airCelsius: 15.5,
  airReadWith: 'CT-1',
  rest: [{ probe: 'T1', celsius: 15.8 }, { probe: 'T2', celsius: 16 }, { probe: 'T3' }],
  touches: [
    { probe: 'T1', way: 'warmed', from: 1, until: 2, readings: [{ probe: 'T1', fromCelsius: 15.8, toCelsius: 18 }] },
    { probe: 'T2', way: 'cooled', from: 3, until: 4, readings: [{ probe: 'T2', fromCelsius: 16, toCelsius: 18.1 }] },
  ],
};

test('each probe stands with what it read, how it moved and what that means, and who checked in which air', () => {
  const made = { at: facts.lastAt, who: 'Ina Holm', airCelsius: 15.5, airReadWith: 'CT-1', ...ambientOutcomes(check) };
  const text = setUp(withCheck({ asked: 'remarked', unchecked: ['T4'], made }));
  expect(text).toContain('Check at ambient, Ina Holm, ');
  expect(text).toMatch(/T1.*16 °C.*\+2\.2 K.*In order, \+2\.2 K/);
  expect(text).toMatch(/T2.*16 °C.*\+2\.1 K.*Moved the wrong way, \+2\.1 K: its two wires are crossed/);
  expect(text).toMatch(/T3.*no reading.*No reading/);
  expect(text).toMatch(/T4.*Not checked/);
  expect(text).toContain('Air 15.5 °C, read with CT-1. 2 probes within 0.2 K, +0.4 K from the air of 15.5 °C.');
});

test('a check that is asked and was not made is told, as text and as a finding; one that is not asked is not', () => {
  expect(setUp(facts)).toContain('Check at ambient: none is recorded before heating.');
  expect(modelText(pages(facts))).toContain('The probes were not checked at ambient before heating');
  const { ambientCheck: _asked, ...assessment } = facts.assessment;
  expect(setUp({ ...facts, assessment })).not.toContain('ambient');
});
