import { describe, expect, test } from 'vitest';
import { warmingPlan } from '../../../server/conduction/plan.ts';
import { carbonSteel } from '../../../server/conduction/steel/carbon.ts';
import { milliCelsius } from '../../../server/measure/quantity.ts';
import type { Joint } from '../../../server/weld/joint.ts';
import { firstFields, type PartPlan, type PlanFields, planned } from '../../../web/pages/requirement/plan-model.ts';
import { arrivalText, powerText, warmText } from '../../../web/pages/requirement/plan-words.ts';
import { girder } from '../../support/station/joints.ts';

const [web, flange] = girder.parts;
const joint: Joint = {
  ...girder,
  parts: [
    { ...web!, farSide: 'still air', conductsAs: 'carbon' },
    { ...flange!, conductsAs: 'carbon' },
  ],
};
const fields: PlanFields = { rate: '300', setPoint: '160', air: '20' };
const plansOf = (of: Joint, typed: Partial<PlanFields> = {}, minimum = 150): readonly PartPlan[] =>
  planned(of, minimum, { ...fields, ...typed }).plans;
const answer = (each: PartPlan) => {
  if ('because' in each) throw new Error(each.because);
  return each.plan;
};

describe('the fields', () => {
  test('begin with what the joint says; a rate is nobody’s to assume', () => {
    const heating = { ...joint.heating, setPointCelsius: 175, airCelsius: -5 };
    expect(firstFields({ ...joint, heating }, 150)).toEqual({ rate: '', setPoint: '175', air: '-5' });
    expect(firstFields(joint, 143.7)).toEqual({ rate: '', setPoint: '154', air: '' });
    expect(firstFields({ ...joint, units: 'inch' }, 150)).toEqual({ rate: '', setPoint: '320', air: '' });
    expect(firstFields(joint, undefined).setPoint).toBe('');
  });

  test('that are missing are asked for, and nothing is planned without them', () => {
    const { problems, plans } = planned(joint, 150, { rate: '', setPoint: '', air: 'cold' });
    expect(plans).toEqual([]);
    expect(problems.rate).toMatch(/^Needed/);
    expect(problems.setPoint).toMatch(/^Needed/);
    expect(problems.air).toContain('"cold" is not a number');
  });

  test('that cannot be are told at the field', () => {
    expect(planned(joint, 150, { ...fields, rate: '0' }).problems).toEqual({ rate: 'A rise above 0.' });
    expect(planned(joint, 150, { ...fields, setPoint: '15' }).problems).toEqual({
      setPoint: 'Above the air temperature.',
    });
  });
});

test('each part is planned with its own thickness, steel and far side', () => {
  const [first, second] = plansOf(joint).map(answer);
  const same = { steel: carbonSteel, ambientCelsius: 20, minimumCelsius: 150, holdMinutes: 0 } as const;
  const rise = { rampKelvinPerHour: 300, setPointCelsius: 160 } as const;
  expect(first).toEqual(
    warmingPlan({ ...same, ...rise, shape: { kind: 'plate', thicknessMillimetres: 80 }, far: 'still air' }),
  );
  // Not chosen counts as not known.
  expect(second).toEqual(
    warmingPlan({ ...same, ...rise, shape: { kind: 'plate', thicknessMillimetres: 60 }, far: 'unknown' }),
  );
});

test('the same plan in the units of the job: 540 °F/h to 320 °F in air of 68 °F', () => {
  const inch = plansOf({ ...joint, units: 'inch' }, { rate: '540', setPoint: '320', air: '68' });
  expect(answer(inch[0]!)).toEqual(answer(plansOf(joint)[0]!));
});

test('parts that answer alike share one answer', () => {
  const alike = {
    ...joint,
    parts: joint.parts.map((part) => ({ ...part, thicknessMillimetres: 80, farSide: 'draught' as const })),
  };
  expect(plansOf(alike).map(({ parts }) => parts)).toEqual([['web plate', 'flange plate']]);
});

test('a plate heated alike from both faces is half as thick with nothing lost in its middle', () => {
  const both = { ...joint, heating: { ...joint.heating, face: 'both' as const } };
  const half = {
    ...joint,
    parts: joint.parts.map((part) => ({
      ...part,
      thicknessMillimetres: part.thicknessMillimetres / 2,
      farSide: 'insulated' as const,
    })),
  };
  expect(plansOf(both).map(answer)).toEqual(plansOf(half).map(answer));
});

test('what stands in the way is told with what mends it', () => {
  const because = (part: Partial<Joint['parts'][number]>): string => {
    const [first] = plansOf({ ...joint, parts: [{ ...joint.parts[0]!, ...part }] });
    return first !== undefined && 'because' in first ? first.because : 'planned';
  };
  expect(because({ form: 'tube' })).toContain('outside diameter');
  expect(because({ farSide: 'colder mass or fluid' })).toContain('probe');
  expect(because({ thicknessMillimetres: 400 })).toContain('300 mm');
  expect(because({ conductsAs: undefined, analyses: [] })).toContain('thermal properties');
  expect(because({ form: 'tube', outsideDiameterMillimetres: 800 })).toBe('planned');
});

test('the answer in words', () => {
  const plan = answer(plansOf(joint)[0]!);
  expect(warmText(plan, 'web plate', 160, 0, 'metric')).toMatch(
    /^Warm through in \d+ to \d+ min from the start of heating$/,
  );
  expect(warmText(plan, 'web plate', 160, 10, 'metric')).toContain('10 min of hold included');
  // 140 K at 300 K/h are 28 min. Computed from the formula.
  expect(arrivalText(plan, 160, milliCelsius(150), 'metric')).toMatch(
    /^The surface is at 160 °C after 28 min; the coldest point is then at 1[34]\d to 1[34]\d °C$/,
  );
  expect(powerText(plan, 'metric')).toMatch(
    /^Into the steel [\d.]+ to [\d.]+ kW\/m² while it rises, [\d.]+ kW\/m² at most; /,
  );
  expect(powerText(plan, 'inch')).toContain('W/in²');
});

test('a set point that never warms the far face says what it needs', () => {
  const thick = { ...joint, parts: [{ ...joint.parts[0]!, thicknessMillimetres: 200, farSide: 'draught' as const }] };
  expect(warmText(answer(plansOf(thick, { setPoint: '152' })[0]!), 'web plate', 152, 0, 'metric')).toMatch(
    /never with the heated face at 152 °C: needs 1\d\d °C, or insulate the far face$/i,
  );
});
