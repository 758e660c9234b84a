/** Which of two soak rules came last, and why: the time by rule or the core. */
import { describe, expect, it } from 'vitest';
import type { ThroughStatus } from '../../../server/judgement/inside/section-status.ts';
import type { SoakStatus } from '../../../server/judgement/soak-status.ts';
import { after, minutes } from '../../../server/measure/quantity.ts';
import type { UnitSystem } from '../../../server/measure/units.ts';
import { governingSoakText } from '../../../server/wording/governing-soak.ts';
import { assessment, at, bounded, sectionStatus } from './sample-assessment.ts';

const minute = (count: number) => after(at, minutes(count));
const hold = (facts: Partial<SoakStatus> = {}): SoakStatus => ({
  rule: 'hold',
  state: 'running',
  required: minutes(20),
  done: minutes(5),
  ...facts,
});
const core = (facts: Partial<ThroughStatus> = {}): ThroughStatus => ({
  asked: true,
  state: 'running',
  required: minutes(10),
  done: minutes(4),
  worst: 'plate A',
  ...facts,
});
const doneAt = (count: number) => ({ state: 'done', doneAt: minute(count), firstDoneAt: minute(count) }) as const;
const text = (soak: SoakStatus, throughThickness: ThroughStatus, units: UnitSystem = 'metric') =>
  governingSoakText(
    assessment({
      soak,
      throughThickness,
      requirement: { ...assessment().requirement, units },
      sections: [
        sectionStatus({ part: 'plate A', depthMillimetres: 76.2, coldest: bounded(140, 142, 145) }),
        sectionStatus({ part: 'plate B', depthMillimetres: 100 }),
      ],
    }),
  );

describe('the rule that came last', () => {
  it('is the core, later than a hold', () => {
    expect(text(hold(doneAt(20)), core(doneAt(32)))).toBe(
      'The core governed: it was warm through and held 12 min after the hold by time had ended. Heat needs a time that grows with the square of the thickness, and more where the far face loses heat: a fixed time does not see that.',
    );
  });

  it('is the core, later than a wait', () => {
    const said = text(hold({ rule: 'wait', ...doneAt(20) }), core({ ...doneAt(32), required: minutes(0) }));
    expect(said).toMatch(/^The core governed: it was warm through 12 min after the wait by thickness had ended\./);
    expect(said).toMatch(/a wait that grows with the thickness alone does not see that\.$/);
  });

  it('is the rule by time, later than the core', () => {
    expect(text(hold(doneAt(40)), core(doneAt(32)))).toBe(
      'The hold by time governed: it ended 8 min after the core was warm through and held. Heat went through plate A, 76.2 mm, sooner than it allows.',
    );
    expect(text(hold({ rule: 'wait', ...doneAt(40) }), core(doneAt(32)), 'inch')).toMatch(
      /^The wait by thickness governed: .* through plate A, 3 in, sooner than it allows\.$/,
    );
  });

  it('is neither where both were done together', () => {
    expect(text(hold(doneAt(32)), core(doneAt(32)))).toBe('The core and the hold by time were done together.');
  });

  it('stays told when both were lost as the part cooled, by when each was first done', () => {
    const lost = { state: 'voided', voidedBy: 'below minimum' } as const;
    expect(text(hold({ ...lost, firstDoneAt: minute(20) }), core({ ...lost, firstDoneAt: minute(32) }))).toMatch(
      /^The core governed: .* 12 min after/,
    );
  });
});

describe('while only one of them is done', () => {
  it('the core governs, with the part that is not warm', () => {
    for (const state of ['not begun', 'voided'] as const) {
      expect(text(hold(doneAt(20)), core({ state }))).toBe(
        'The hold by time has ended, but plate A, 76.2 mm, is not warm through. The core governs.',
      );
    }
  });
  it('the core governs, not held long enough', () => {
    expect(text(hold(doneAt(20)), core())).toMatch(/the core is not held as long as the procedure asks/);
  });
  it('nothing is said of a core that is not judged', () => {
    const said = text(hold(doneAt(20)), core({ state: 'not judged' }));
    expect(said).toBe('The hold by time has ended, but whether heat is through is not judged.');
  });
  it('the rule by time governs', () => {
    expect(text(hold(), core(doneAt(32)))).toBe(
      'The hold by time governs: the core is warm through and held, but it has not ended.',
    );
  });
});

it('says nothing where only one is asked for, or neither is done', () => {
  expect(text(hold(), core())).toBeUndefined();
  expect(text(hold(doneAt(20)), core({ ...doneAt(32), asked: false }))).toBeUndefined();
  for (const rule of ['opposite', 'through thickness', 'none'] as const)
    expect(text({ rule, state: 'not needed' }, core(doneAt(32)))).toBeUndefined();
});
