/** The page by which a joint is handed over: it says what the judge says, what nobody has decided, and who handed over last. */
import { expect, test } from 'vitest';
import { deviationsOf } from '../../../server/judgement/people/deviations.ts';
import { modelText } from '../../../server/report/page-model.ts';
import { handOverPage } from '../../../server/report/papers/hand-over-page.ts';
import { findingText } from '../../../server/wording/finding.ts';
import { handOverText } from '../../../server/wording/hand-over.ts';
import { unmetConditions } from '../../../server/wording/readiness.ts';
import { verdictText } from '../../../server/wording/verdict.ts';
import { reportFacts } from '../../support/report-fixture.ts';

const over = { kind: 'hand-over', to: 'Odd Varen', toProof: 'PIN', note: 'Far side wrapped, look at T3.' } as const;
const open = () => reportFacts({ close: false, hours: 1, extraActs: [[50, 'Runa Teld', over]] });

test('one page holds the verdict so far, every open point, and the last hand-over with both names', () => {
  const facts = open();
  const text = modelText(handOverPage(facts));
  const { assessment } = facts;
  const undecided = deviationsOf(assessment.findings).open;
  expect(undecided.length + unmetConditions(assessment).length).toBeGreaterThan(0);
  for (const finding of undecided) expect(text).toContain(`To be decided: ${findingText(finding, 'metric').what}`);
  expect(text).toContain(verdictText(assessment));
  expect(text).toContain('SIMULATED');
  expect(text).toMatch(
    /Runa Teld\. Handed over to Odd Varen \(signed on with a PIN\)\. Far side wrapped, look at T3\./,
  );
  for (const heading of ['Where it stands', 'What is open', 'How long it may stand', 'What comes next', 'Takes over'])
    expect(text).toContain(heading);
});

test('how long it may stand is said where the station can tell, and that it cannot where it cannot', () => {
  const { assessment } = open();
  const trend = { probe: 'T3', limit: 120_000, time: 18 * 60_000 } as never;
  const told = handOverText(assessment, { at: assessment.at, sections: [], breakByTrend: trend });
  expect(told.howLong.at(-1)).toMatch(/^T3 is below 120\s°C in about 18\smin if it falls on as it does$/);
  const silent = handOverText({ ...assessment, ahead: { required: [] } });
  expect(silent.howLong).toEqual([]);
});

test('a joint that was never handed over says so', () => {
  const text = modelText(handOverPage(reportFacts({ close: false, hours: 1 })));
  expect(text).toContain('No hand-over is entered yet.');
});
