/** Units of the job: what is typed in inches is stored in millimetres, and nothing typed is changed by looking at it. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { candidateOf } from '../../../web/pages/new-joint/candidate.ts';
import { draftOf } from '../../../web/pages/new-joint/draft-of.ts';
import { inUnits } from '../../../web/pages/new-joint/draft-units.ts';
import { converted, type QuantityKind, quantityText, readQuantity } from '../../../web/pages/new-joint/quantity.ts';
import { zoneDistance } from '../../../web/pages/new-joint/suggest.ts';
import { everyField } from './every-field.ts';

const kinds: readonly QuantityKind[] = ['length', 'temperature', 'difference', 'heat input', 'speed', 'strength'];

// Inch and pound by the agreement of 1959, the Fahrenheit scale by its definition: computed from those.
test.each<[string, QuantityKind, number]>([
  ['1.5', 'length', 38.1],
  ['1 1/2', 'length', 38.1],
  ['1-1/2"', 'length', 38.1],
  ['3/4', 'length', 19.05],
  ['2"', 'length', 50.8],
  ['225', 'temperature', 107.2222222222],
  ['32', 'temperature', 0],
  ['-40', 'temperature', -40],
  ['50', 'difference', 27.7777777778],
  ['50,8', 'heat input', 2],
  ['60', 'speed', 25.4],
  ['65', 'strength', 448.1592240559],
])('%s as a %s of an inch job', (text, kind, value) => {
  expect(readQuantity(text, kind, 'inch')).toEqual({ kind: 'number', value });
});

test('what is no number is none in either system', () => {
  expect(readQuantity('1/0', 'length', 'inch').kind).toBe('not a number');
  expect(readQuantity('1 1/2', 'length', 'metric').kind).toBe('not a number');
  expect(readQuantity('3/4', 'temperature', 'inch').kind).toBe('not a number');
  expect(readQuantity('', 'length', 'inch').kind).toBe('none');
});

describe('turning to the other units', () => {
  test.each<[string, QuantityKind, string]>([
    ['60', 'length', '2.362205'],
    ['25.4', 'length', '1'],
    ['150', 'temperature', '302'],
    ['30', 'difference', '54'],
    ['1.6', 'heat input', '40.64'],
    ['abc', 'length', 'abc'],
    ['', 'length', ''],
  ])('%s as a %s becomes %s', (metric, kind, inch) => {
    expect(converted(metric, kind, 'metric', 'inch')).toBe(inch);
  });

  test('and back gives the number that was typed, whatever was typed', () => {
    const typed = fc.tuple(fc.integer({ min: -500, max: 999_999 }), fc.integer({ min: 0, max: 3 }), fc.boolean());
    fc.assert(
      fc.property(fc.constantFrom(...kinds), typed, (kind, [digits, decimals, fromInch]) => {
        const text = (digits / 10 ** decimals).toFixed(decimals);
        const [from, to] = fromInch ? (['inch', 'metric'] as const) : (['metric', 'inch'] as const);
        const back = converted(converted(text, kind, from, to), kind, to, from);
        expect(Number(back)).toBe(Number(text));
      }),
    );
  });

  test('no field is left behind: the whole joint means the same in inches, and turns back to itself', () => {
    const metric = draftOf(everyField);
    const inch = inUnits(metric, 'inch');
    expect(inUnits(inch, 'metric')).toEqual(metric);
    const candidate = candidateOf(inch);
    if (!candidate.ok) throw new Error(JSON.stringify(candidate.problems));
    const plain = (value: unknown): unknown =>
      JSON.parse(JSON.stringify(value, (_, each) => (typeof each === 'number' ? Number(each.toPrecision(5)) : each)));
    expect(plain(candidate.joint)).toEqual(plain({ ...everyField, units: 'inch' }));
  });
});

test('a number of the joint is shown as the shortest text that is read as exactly that number', () => {
  expect(quantityText(38.1, 'length', 'inch')).toBe('1.5');
  fc.assert(
    fc.property(fc.constantFrom(...kinds), fc.integer({ min: 1, max: 2_000_000 }), (kind, thousandths) => {
      const value = thousandths / 1000;
      expect(readQuantity(quantityText(value, kind, 'inch'), kind, 'inch')).toEqual({ kind: 'number', value });
    }),
  );
});

test('what the schema refuses is told in the units that were typed', () => {
  const draft = inUnits(draftOf(everyField), 'inch');
  const parts = [{ ...draft.parts[0]!, thickness: '100' }, draft.parts[1]!];
  expect(candidateOf({ ...draft, parts })).toEqual({
    ok: false,
    problems: {
      'parts.0.thicknessMillimetres': expect.stringMatching(
        /^100 in is not allowed here: in mm, .*at most 2000.* 2540 mm\.$/,
      ),
    },
  });
});

// ISO 13916 in inches, on the side that the rule asks for: 50 mm are 1.968 in, 75 mm are 2.953 in (computed).
test.each([
  ['1/4', '1'],
  ['1', '1.96'],
  ['3', '2.96'],
])('zone distance for %s in', (thickness, distance) => {
  expect(zoneDistance(thickness, 'inch')).toBe(distance);
});
