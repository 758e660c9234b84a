/** The table of readings by hand: code, bound, correction, and the probe beside. */
import { expect, test } from 'vitest';
import { modelText } from '../../../server/report/page-model.ts';
import { pages } from '../../../server/report/pages.ts';
import { reportFacts } from '../../support/report-fixture.ts';
import { fixtureJoint } from '../../support/report-joint.ts';

const place = { part: fixtureJoint().parts[0]!.id, side: 'A', face: 'front', distanceMillimetres: 75 } as const;
const probe = fixtureJoint().probes.find(({ use }) => use === 'zone')!.id;

test('each stands with what it was read with, and a crayon with no value', () => {
  const text = modelText(
    pages(
      reportFacts({
        joint: {
          ...fixtureJoint(),
          instruments: [
            {
              id: 'CT-1',
              kind: 'contact thermometer',
              certificate: 'C-1',
              corrections: [{ atCelsius: 150, correctionKelvin: -1.5, expandedKelvin: 1, coverageFactor: 2 }],
            },
          ],
        },
        extraActs: [
          [60, 'Ada', { kind: 'contact reading', celsius: 151.5, instrument: 'CT-1', use: 'zone', place, probe }],
          [
            61,
            'Bo',
            {
              kind: 'contact reading',
              celsius: 100,
              instrument: 'CR-100',
              instrumentKind: 'crayon',
              shows: 'at least',
              use: 'zone',
              place,
            },
          ],
          [
            62,
            'Bo',
            {
              kind: 'contact reading',
              celsius: 140,
              instrument: 'P-1',
              instrumentKind: 'pyrometer',
              emissivity: 0.85,
              use: 'interpass',
              place,
            },
          ],
        ],
      }),
    ),
  );
  expect(text).toContain('contact thermometer (CT)');
  expect(text).toContain('corrected \u22121.5 K');
  expect(text).toContain('crayon (TS)');
  expect(text).toContain('at least 100 °C');
  expect(text).toContain('pyrometer (TB)');
  expect(text).toContain('emissivity 0.85');
  expect(text).toMatch(new RegExp(`${probe} \\d`));
  expect(text).toContain('Codes of ISO 13916 (from memory');
});
