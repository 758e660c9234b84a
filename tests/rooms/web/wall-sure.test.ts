/** How sure the picture of a part is, in words. */
import { expect, test } from 'vitest';
import type { SectionStatus } from '../../../server/judgement/inside/section-status.ts';
import { type Millikelvin, milliCelsius } from '../../../server/measure/quantity.ts';
import { doubtText, startText, sureTexts } from '../../../web/parts/wall/sure-words.ts';
import { momentOf, openedAt } from './page-fixture.ts';
import { wallScript } from './wall-fixture.ts';

const minimum = milliCelsius(150);
const [web, flange] = momentOf(wallScript, 30).live.assessment.sections as [SectionStatus, SectionStatus];

test('how sure: properties with their status, and what is left of the start only while it counts', () => {
  const sure = (section: SectionStatus): string[] =>
    sureTexts(section, minimum, 'metric').map(({ name, text }) => `${name}: ${text}`);
  expect(sure(web)[1]).toMatch(/^Conducts as: carbon steel, by the analysis; .* 20 % either way .*\(verified\)$/);
  expect(startText(web, 'metric')).toBeUndefined();
  const startLeft = { part: 0.2, atMost: 12_000 as NonNullable<SectionStatus['startLeft']>['atMost'] };
  expect(startText({ ...web, startLeft }, 'metric')).toMatch(/up to 12 K of the band are from that/);
  expect(startText({ ...web, startLeft }, 'inch')).toContain('up to 22 °F of the band');
  expect(sure({ ...web, lossFound: { coefficient: 17.6, uncertainty: 3.2 } })).toContain(
    'Loss found: 18 ± 4 W/(m² K), found from the probes on both faces',
  );
  expect(sure({ ...web, leavesSideways: 340 as Millikelvin })).toContain(
    'Heat sideways: followed along the part, past the edge of the heater; it takes 0.3 K/min now',
  );
  expect(doubtText(web, 'metric')).toBeUndefined();
  const doubted = { since: openedAt, measured: milliCelsius(90), low: milliCelsius(120), high: milliCelsius(140) };
  expect(doubtText({ ...flange, doubted }, 'metric')).toMatch(
    /^The probe on the far face reads 90 °C; .* 120 to 140 °C\./,
  );
});
