/** Words for instruments: an uncertainty is never rounded to less than it is, and the decision rule is said as it was. */
import { expect, test } from 'vitest';
import type { Millikelvin } from '../../../server/measure/quantity.ts';
import { decisionRuleText, instrumentActText, plusMinusText } from '../../../server/wording/instrument.ts';

const kelvin = (value: number) => Math.round(value * 1000) as Millikelvin;

test.each([
  [2.4, undefined, 'metric', '±2.4 K'],
  [2.401, undefined, 'metric', '±2.5 K'],
  // A difference of 2.5 K is 4.5 °F, computed from the definition of the degree Fahrenheit.
  [2.5, undefined, 'inch', '±4.5 °F'],
  [1, -0.4, 'metric', '±1.0 K, corrected −0.4 K'],
  [1, 2, 'inch', '±1.8 °F, corrected +3.6 °F'],
] as const)('%s K with a correction of %s K, %s: %s', (expanded, correction, units, text) => {
  expect(plusMinusText(kelvin(expanded), correction === undefined ? undefined : kelvin(correction), units)).toBe(text);
});

test('the decision rule is said with the width of its band', () => {
  expect(decisionRuleText(undefined)).toMatch(/^simple acceptance/);
  expect(decisionRuleText({ decisionRule: 'guarded', guardFactor: 1.645 })).toMatch(
    /1\.645 times its standard uncertainty/,
  );
});

test('what happened to an instrument is said in one line, in the units of the job', () => {
  expect(
    instrumentActText(
      {
        kind: 'verification',
        instrument: 'W-1',
        reference: 'CT-1',
        readCelsius: 100,
        referenceCelsius: 97,
        result: 'outside its limit',
      },
      'inch',
    ),
  ).toBe('Verification of W-1: read 212 °F where CT-1 read 207 °F, outside its limit');
  expect(
    instrumentActText(
      { kind: 'calibration', instrument: 'W-1', certificate: 'C-1', calibratedOn: '2026-03-01' },
      'metric',
    ),
  ).toBe('Calibration of W-1: certificate C-1 of 2026-03-01');
});
