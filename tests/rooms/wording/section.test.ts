/** Heat through the thickness in words: every reason with what mends it, ends that never narrow, and what lies ahead. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Condition } from '../../../server/judgement/condition.ts';
import type {
  SectionOutlook,
  SectionReason,
  SectionStatus,
  ThroughStatus,
} from '../../../server/judgement/inside/section-status.ts';
import { instant, type MilliCelsius, milliCelsius, milliseconds, minutes } from '../../../server/measure/quantity.ts';
import { conditionText } from '../../../server/wording/condition.ts';
import {
  betweenText,
  coldestText,
  coolingText,
  fallText,
  outlookText,
  reasonText,
  sectionText,
  throughAfterText,
  throughText,
} from '../../../server/wording/section.ts';
import { boundedText } from '../../../server/wording/temperature.ts';
import { assessment, bounded, probe, sectionStatus } from './sample-assessment.ts';

/** What a person can do about it, in a word that has to be there. */
const mends: Readonly<Record<SectionReason, RegExp>> = {
  'no heated width': /enter how far the heater reaches/,
  'no air temperature': /enter the lowest air temperature, or place an ambient probe/,
  'steel not known': /choose the thermal properties of plate A/,
  'no outside diameter': /enter the outside diameter of plate A/,
  'no probe on the heated face': /place a zone probe on the heated face of plate A/,
  'too near groove or heater edge': /place a zone probe of plate A at least one thickness/,
  'heated from both faces, one measured': /place a zone probe on each face of plate A/,
  'far side takes heat that nobody can name': /place a probe on that face/,
  'thicker than is computed': /measure on the far face/,
  'shape not possible': /check thickness and outside diameter of plate A/,
  'no reading yet': /check that its probes are connected/,
  'no trusted fresh reading': /check contact and wire/,
  'within guard band': /guard band/,
  'above the range of the properties': /judged again once it is cooler/,
  'rises faster than steel': /check whether it touches the heater/,
  'far face not as computed': /check the contact of both/,
};

describe('why a part is not judged', () => {
  const bare = { missing: [] };
  const full = { part: 'plate A', value: 320, limit: 80, missing: ['zone A'] };
  it.each(Object.keys(mends) as SectionReason[])('%s: with what mends it, in both systems of units', (reason) => {
    for (const units of ['metric', 'inch'] as const) {
      expect(reasonText(reason, full, units)).toMatch(mends[reason]);
      for (const facts of [bare, full]) {
        const text = reasonText(reason, facts, units);
        expect(text).toMatch(/^(?!.*(undefined|NaN)).*[^.?]$/);
        expect(text).not.toMatch(/\bsafe\b/i);
        expect(text).not.toMatch(units === 'inch' ? /\d mm\b|°C/ : /\d in\b|°F/);
      }
    }
  });

  it('gives lengths in the units of the job', () => {
    const near = { part: 'plate A', limit: 76.2, missing: [] };
    expect(reasonText('too near groove or heater edge', near, 'metric')).toContain('one thickness (76.2 mm)');
    expect(reasonText('too near groove or heater edge', near, 'inch')).toBe(
      'place a zone probe of plate A at least one thickness (3 in) from the groove and from the edge of the heater, which has to reach 6 in; nearer to them heat goes sideways',
    );
    expect(reasonText('thicker than is computed', full, 'metric')).toContain('(320 mm)');
  });

  it('names the probes of the section that cannot be believed, and no others', () => {
    const probes = [
      { ...probe('zone A', 'zone', 'front', 150), trusted: false },
      { ...probe('far A', 'opposite face', 'back', 140), trusted: false },
      { ...probe('zone B', 'zone', 'front', 150), trusted: false },
    ];
    const status = sectionStatus({ state: 'not judged', reason: 'no trusted fresh reading', backProbes: ['far A'] });
    expect(sectionText(status, assessment({ probes }))).toBe(
      'Through plate A not judged: no trusted reading now at zone A and far A: check contact and wire; as last computed coldest point at least 137 °C of 150 °C, likely 140 °C, at most 143 °C',
    );
  });
});

describe('how a section stands', () => {
  const inch = assessment({ requirement: { ...assessment().requirement, units: 'inch' } });

  it('gives the least beside the minimum, the likely and the most', () => {
    const status = sectionStatus({ coldest: bounded(137.6, 140.2, 142.1) });
    expect(sectionText(status, assessment())).toBe(
      'Through plate A: not warm through, coldest point at least 137 °C of 150 °C, likely 140 °C, at most 143 °C',
    );
    expect(sectionText(status, inch)).toBe(
      'Through plate A: not warm through, coldest point at least 279 °F of 302 °F, likely 284 °F, at most 288 °F',
    );
    expect(sectionText({ ...status, state: 'met', coldest: bounded(151.4, 152, 153) }, assessment())).toBe(
      'Through plate A: warm through, coldest point at least 151 °C of 150 °C, likely 152 °C, at most 153 °C',
    );
  });

  it('gives one figure where nothing is uncertain, and none of a minimum that is not stated', () => {
    expect(coldestText(bounded(160, 160, 160), assessment())).toBe('160 °C of 150 °C');
    expect(coldestText(bounded(137.6, 140.2, 142.1), assessment({ limits: {} }))).toBe(
      'at least 137 °C, likely 140 °C, at most 143 °C',
    );
  });

  it('never rounds an end across the limit or onto it', () => {
    expect(coldestText(bounded(149.97, 150.02, 150.04), assessment())).toBe(
      'at least 149.9 °C of 150 °C, likely 150.1 °C, at most 150.1 °C',
    );
    // Down to a tenth would be the limit itself.
    expect(coldestText(bounded(150.04, 151.5, 153), assessment())).toMatch(/^at least 150\.04 °C of 150 °C/);
    expect(coldestText(bounded(147, 148, 149.96), assessment())).toMatch(/at most 149\.96 °C$/);
  });

  it('never becomes narrower than it is, wherever its limit lies (law)', () => {
    const value = fc.integer({ min: -40_000, max: 600_000 });
    fc.assert(
      fc.property(value, value, value, fc.constantFrom('metric', 'inch'), (a, b, at, units) => {
        const [low, high] = [Math.min(a, b), Math.max(a, b)] as [MilliCelsius, MilliCelsius];
        const limit = at as MilliCelsius;
        const figures = boundedText({ low, high }, units, { limit })
          .replaceAll('\u2212', '-')
          .match(/-?[\d.]+/g)!;
        const shown = (thousandths: number): number =>
          units === 'inch' ? thousandths * 1.8e-3 + 32 : thousandths / 1000;
        // Fahrenheit are kept to a thousandth, and a limit to a hundredth.
        const noise = units === 'inch' ? 0.0051 : 0;
        expect(Number(figures[0])).toBeLessThanOrEqual(shown(low) + (low === high ? 0.5 : noise));
        expect(Number(figures.at(-1))).toBeGreaterThanOrEqual(shown(high) - (low === high ? 0.5 : noise));
      }),
    );
  });

  it('says so while nothing came yet', () => {
    const { coldest: _, ...bare } = sectionStatus();
    expect(sectionText(bare as SectionStatus, assessment())).toBe('Through plate A: no reading yet');
  });
});

describe('the hold through the thickness', () => {
  const running: ThroughStatus = { asked: true, state: 'running', required: minutes(10), done: minutes(4) };
  it('tells every state, and whether the procedure asks for it', () => {
    expect(throughText(running)).toBe('Warm through, holding: 4 min of 10 min.');
    expect(throughText({ ...running, state: 'paused' })).toMatch(/stopped by missing readings: 4 min of 10 min\.$/);
    expect(throughText({ ...running, state: 'done' })).toBe('Warm through and held: 10 min.');
    expect(throughText({ ...running, state: 'done', required: minutes(0) })).toBe('Warm through.');
    expect(throughText({ ...running, state: 'voided', voidedBy: 'gap' })).toMatch(
      /^Hold .* lost: readings were missing/,
    );
    expect(throughText({ ...running, state: 'voided', voidedBy: 'below minimum' })).toMatch(/fell below the minimum/);
    expect(throughText({ ...running, state: 'voided', required: minutes(0) })).toMatch(/^No longer warm through: /);
    expect(throughText({ ...running, state: 'not begun' })).toBe('Not warm through yet.');
    expect(throughText({ ...running, state: 'not judged', asked: false })).toBe(
      'Not judged. The procedure does not ask for it.',
    );
  });

  it('tells of a part that was warm before it was welded, and has cooled as it has to, when it was warm', () => {
    const at = (minute: number) => `minute ${minute}`;
    const cooled: ThroughStatus = { ...running, state: 'voided', voidedBy: 'below minimum' };
    expect(throughAfterText({ ...cooled, firstDoneAt: instant(7) }, at)).toBe(
      'Warm through and held first at minute 7; cooled since.',
    );
    expect(throughAfterText(cooled, at)).toMatch(/fell below the minimum/);
    expect(throughAfterText({ ...cooled, voidedBy: 'gap', firstDoneAt: instant(7) }, at)).toMatch(/were missing/);
  });
});

describe('the condition of readiness', () => {
  it('says how far the inside is, or why it is not judged', () => {
    const core = { id: 'through thickness', state: 'not met', part: 'plate A' } as const;
    const of = (condition: Partial<Condition>): string =>
      conditionText({ ...core, reason: 'ok', ...condition }, assessment());
    expect(of({ reason: 'below minimum', value: milliCelsius(138.2), limit: milliCelsius(150) })).toBe(
      'Not warm through: coldest inside plate A 138 °C of 150 °C',
    );
    expect(of({ reason: 'holding', value: minutes(4), limit: minutes(10), timeToGo: minutes(6) })).toBe(
      'Warm through, holding: 4 min of 10 min, about 6 min',
    );
    expect(of({ state: 'not judged', reason: 'no heated width' })).toBe(
      'Through the thickness not judged: enter how far the heater reaches from the edge of the groove',
    );
  });
});

describe('what lies ahead', () => {
  const never: SectionOutlook = { part: 'plate A', course: 'held', reaches: 'never', ready: {} };

  it('never at this surface temperature: with the surface that would do, and the far face insulated', () => {
    const both: SectionOutlook = { ...never, surfaceNeeded: milliCelsius(170.2), insulatedHelps: true };
    expect(outlookText(both, 'metric')).toBe(
      'never at this surface temperature: needs 171 °C, or insulate the far face',
    );
    // 170.2 °C are 338.36 °F.
    expect(outlookText(both, 'inch')).toBe('never at this surface temperature: needs 339 °F, or insulate the far face');
    expect(outlookText({ ...both, insulatedHelps: false }, 'metric')).toBe(
      'never at this surface temperature: needs 171 °C',
    );
    expect(outlookText({ ...never, insulatedHelps: true }, 'metric')).toBe(
      'never at this surface temperature: insulate the far face',
    );
    expect(outlookText(never, 'metric')).toBe('never at this surface temperature');
  });

  it('perhaps not: the best beside the worst', () => {
    const perhaps: SectionOutlook = {
      ...never,
      reaches: 'not at worst',
      ready: { earliest: milliseconds(719_000), likely: minutes(15) },
      surfaceNeeded: milliCelsius(171),
    };
    expect(outlookText(perhaps, 'metric')).toBe(
      'at best in 11 min; at worst never at this surface temperature: needs 171 °C',
    );
  });

  it('certainly: between two times, which never narrow', () => {
    const sure = (earliest: number, latest?: number): SectionOutlook => ({
      ...never,
      reaches: 'always',
      ready: { earliest: milliseconds(earliest), ...(latest === undefined ? {} : { latest: milliseconds(latest) }) },
    });
    expect(outlookText(sure(719_000, 1_081_000), 'metric')).toBe('warm through in 11 to 19 min');
    expect(outlookText(sure(0, 0), 'metric')).toBe('warm through');
    expect(outlookText(sure(719_000), 'metric')).toBe('takes longer than is looked ahead');
    const text = (earliest: number, latest: number) => betweenText(milliseconds(earliest), milliseconds(latest));
    expect(text(720_000, 720_000)).toBe('about 12 min');
    expect(text(30_000, 299_000)).toBe('at most 5 min');
    expect(text(30_000, 59_000)).toBe('at most 1 min');
    expect(text(3_000_000, 4_201_000)).toBe('50 min to 1 h 11 min');
    expect(text(3_600_000, 7_200_000)).toBe('1 h to 2 h');
  });

  it('with the heat off: what is stored has to be enough', () => {
    expect(outlookText({ ...never, course: 'heat off' }, 'metric')).toMatch(/heat again$/);
    expect(outlookText({ ...never, course: 'heat off', reaches: 'not at worst' }, 'metric')).toMatch(/^hardly/);
  });

  it('a break: how long it may last, the earliest end rounded down', () => {
    const cools = (times: object): SectionOutlook => ({ ...never, coolsBelow: { limit: milliCelsius(120), ...times } });
    const of = (times: object, units: 'metric' | 'inch' = 'metric') => coolingText(cools(times), units);
    expect(of({ earliest: milliseconds(899_000), latest: milliseconds(2_941_000) })).toMatch(
      /^above 120 °C for 14 to 50 min with the heat off/,
    );
    expect(of({ earliest: milliseconds(899_000) }, 'inch')).toMatch(/^above 248 °F for at least 14 min/);
    expect(of({ earliest: milliseconds(0), latest: minutes(1) })).toBe('below 120 °C already');
    expect(of({})).toBe('above 120 °C for longer than is looked ahead');
    expect(coolingText(never, 'metric')).toBeUndefined();
  });
});

it('says how long a break may last as the part falls now, never longer than it is', () => {
  const fall = { probe: 'zone A', limit: milliCelsius(120), time: milliseconds(14.9 * 60_000) };
  expect(fallText(fall, 'metric')).toBe('As zone A falls now, it is at 120 °C in 14 min');
  expect(fallText({ ...fall, time: milliseconds(30_000) }, 'inch')).toBe(
    'As zone A falls now, it is at 248 °F in under 1 min',
  );
});
