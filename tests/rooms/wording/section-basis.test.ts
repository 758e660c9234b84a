/** What heat through a part was computed from, in words: shape, probes, steel, far side, start, loss, doubt. */
import { describe, expect, it } from 'vitest';
import { milliCelsius, millikelvin } from '../../../server/measure/quantity.ts';
import {
  doubtText,
  driversText,
  farFaceText,
  lossText,
  shapeText,
  startText,
  steelText,
} from '../../../server/wording/section-basis.ts';
import { sectionStatus } from './sample-assessment.ts';

describe('the basis of a section', () => {
  it('names shape and depth, from which face to which', () => {
    const status = sectionStatus();
    expect(shapeText({ form: 'plate' }, status, 'metric')).toBe(
      'plate, 80 mm from the heated front face to the back face',
    );
    const tube = { form: 'tube', outsideDiameterMillimetres: 508 } as const;
    expect(shapeText(tube, { ...status, depthMillimetres: 63.5, front: 'back' }, 'inch')).toBe(
      'tube of 20 in outside diameter, 2.5 in from the heated back face to the front face',
    );
    expect(shapeText({ form: 'bar' }, { ...status, depthMillimetres: 100 }, 'metric')).toBe(
      'solid bar, 100 mm from the outside to the axis',
    );
  });

  it('names the probes, and which of several counts', () => {
    expect(driversText(sectionStatus())).toBe('zone A on the heated face');
    expect(driversText(sectionStatus({ frontProbes: ['Z1', 'Z2'], backProbes: ['F1'] }))).toBe(
      'Z1 and Z2 on the heated face, the coldest of them; F1 on the far face',
    );
    expect(driversText(sectionStatus({ frontProbes: [] }))).toBe('none that can');
  });

  it('names the steel with source and status, and how it was chosen', () => {
    const { steel } = sectionStatus();
    expect(steelText(steel!)).toBe(
      'carbon steel, by the analysis; diffusivity up to 20 % either way between grades; EN 1993-1-2:2005 (verified)',
    );
    expect(steelText({ ...steel!, by: 'kind of material' })).toContain('by the kind of material');
    expect(steelText({ ...steel!, by: 'entered' })).toContain('as entered');
  });

  it('says of the far side what was entered, or that it is measured', () => {
    expect(farFaceText(sectionStatus())).toBe('still air: from the least to the most that it can lose there');
    expect(farFaceText(sectionStatus({ farSide: 'unknown' }))).toMatch(/^not known: .* no loss .* draught/);
    expect(farFaceText(sectionStatus({ farMeasured: true, backProbes: ['F1'] }))).toBe(
      'measured by F1: no loss is assumed',
    );
  });

  it('says what is left of the start, rounded up', () => {
    expect(startText({ part: 0.123, atMost: millikelvin(17.2) }, 'metric')).toBe(
      'not known inside; 18 K at most are left of that (12 %)',
    );
    expect(startText({ part: 0.0001, atMost: millikelvin(0.02) }, 'inch')).toBe(
      'not known inside; 1 °F at most are left of that',
    );
  });

  it('gives the loss that was found in the units of the job, its uncertainty rounded up', () => {
    const found = { coefficient: 14.3, uncertainty: 2.1 };
    expect(lossText(found, 'metric')).toBe('14 ± 3 W/(m² K), found from the probes on both faces');
    // 1 Btu/(h ft2 F) = 5.678263 W/(m2 K) (international table Btu; NIST SP 811 appendix B, from memory).
    expect(lossText(found, 'inch')).toBe('2.5 ± 0.4 Btu/(h ft² °F), found from the probes on both faces');
  });

  it('sets a doubted reading beside what conduction allows, rounded outwards', () => {
    const doubted = { measured: milliCelsius(200), low: milliCelsius(180.4), high: milliCelsius(190.6) };
    expect(doubtText(doubted, 'metric')).toMatch(
      /^the probe on the far face reads 200 °C; by conduction from the heated face it would be 180 to 191 °C\. Check/,
    );
    expect(doubtText(doubted, 'inch')).toMatch(/reads 392 °F; .* it would be 356 to 376 °F\./);
  });
});
