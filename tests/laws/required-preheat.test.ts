/**
 * Laws of the requirement: it rises with CET, thickness and hydrogen; what governs obeys its rule for all
 * combinations; a bound never asks for less than the value it bounds; floating noise never flips a ceiling.
 */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { Acceptance } from '../../server/metallurgy/answer.ts';
import { methodBTerms } from '../../server/metallurgy/methods/en-1011-2-method-b.ts';
import { roundedUp, steady } from '../../server/metallurgy/number.ts';
import { requirement } from '../../server/metallurgy/requirement.ts';
import { plainJoint, plainPart, plainProcedure, withPercent } from '../support/plain-joint.ts';

// One seed, so that every run tries the same cases.
fc.configureGlobal({ seed: 20_011 });

const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const celsius = (inputs: Parameters<typeof methodBTerms>[0]): number =>
  methodBTerms(inputs).reduce((sum, term) => sum + term.value, 0);
const inputs = fc.record({
  cet: between(0.2, 0.5),
  d: between(10, 90),
  hd: between(1, 20),
  q: between(0.5, 4),
});

test('method B rises with CET, thickness and hydrogen over its whole range', () => {
  fc.assert(
    fc.property(inputs, fc.constantFrom('cet', 'd', 'hd'), between(0.001, 1), (at, name, step) => {
      const more = { ...at, [name]: at[name] * (1 + step) };
      expect(celsius(more)).toBeGreaterThan(celsius(at));
    }),
  );
});

test('on a whole joint a thicker part, more carbon or more hydrogen never asks for less', () => {
  const joint = fc.record({
    d: between(10, 80),
    c: between(0.06, 0.25),
    hd: between(1, 18),
  });
  const judged = ({ d, c, hd }: { d: number; c: number; hd: number }) =>
    requirement(
      plainJoint({
        parts: [
          plainPart({
            thicknessMillimetres: d,
            analyses: [withPercent({ C: c })],
          }),
        ],
        consumable: { hydrogen: { millilitresPer100Grams: hd } },
      }),
      [],
    ).governing.preheatMinimumCelsius!;
  fc.assert(
    fc.property(joint, fc.constantFrom('d', 'c', 'hd'), between(0, 0.1), (at, name, step) => {
      expect(judged({ ...at, [name]: at[name] * (1 + step) })).toBeGreaterThanOrEqual(judged(at));
    }),
  );
});

test('a stated bound asks for exactly what its upper end would', () => {
  fc.assert(
    fc.property(between(0.06, 0.3), (c) => {
      const one = (content: number | { atMost: number }) =>
        requirement(
          plainJoint({
            parts: [plainPart({ analyses: [withPercent({ C: content })] })],
          }),
          [],
        ).governing;
      expect(one({ atMost: c }).computedCelsius).toBe(one(c).computedCelsius);
    }),
  );
});

test('the governing value obeys its rule for all combinations', () => {
  const methodB = 'en-1011-2-method-b';
  const acceptance: fc.Arbitrary<Acceptance[]> = fc.constantFrom<Acceptance[]>(
    [],
    [{ subject: 'extended range', method: methodB, who: 'A' }],
    [{ subject: 'procedure below calculation', who: 'B' }],
  );
  const cases = fc.record({
    d: fc.constantFrom(8, 20, 60, 90, 120),
    procedure: fc.option(fc.integer({ min: 0, max: 240 }), { nil: undefined }),
    floor: fc.option(fc.integer({ min: -10, max: 240 }), { nil: undefined }),
    binding: fc.boolean(),
    hydrogen: fc.constantFrom('not stated' as const, { class: 'H5' as const }, { class: 'H15' as const }),
    acceptance,
  });
  fc.assert(
    fc.property(cases, ({ d, procedure, floor, binding, hydrogen, acceptance }) => {
      const { governing, methods, warnings } = requirement(
        plainJoint({
          parts: [plainPart({ thicknessMillimetres: d })],
          consumable: { hydrogen },
          ...(procedure === undefined
            ? {}
            : {
                procedure: {
                  ...plainProcedure,
                  preheatMinimumCelsius: procedure,
                },
              }),
          ...(floor === undefined
            ? {}
            : {
                codeFloor: { preheatMinimumCelsius: floor, source: 'Code X' },
              }),
          ...(binding ? { bindingMethods: [methodB] } : {}),
        }),
        acceptance,
      );
      // The rule, said again in another way: d 8 is refused, 120 extended, no hydrogen no number.
      const number = hydrogen !== 'not stated' && d >= 10 ? methods[0]!.computedCelsius! : undefined;
      const accepted = acceptance.some((one) => one.subject === 'extended range');
      const usable = number !== undefined && (d <= 90 || accepted) ? number : undefined;
      const needed = usable === undefined ? undefined : usable <= 20 ? 20 : Math.ceil(usable / 5) * 5;
      const floors = floor === undefined ? [] : [floor];
      const expected =
        binding && number === undefined
          ? undefined
          : procedure !== undefined
            ? Math.max(procedure, ...floors, ...(binding && usable !== undefined && usable > 20 ? [needed!] : []))
            : needed === undefined
              ? undefined
              : Math.max(needed, ...floors);
      expect(governing.preheatMinimumCelsius).toBe(expected);
      expect(governing.kind === 'none').toBe(expected === undefined);
      expect(governing.computedCelsius).toBe(usable);
      const below = procedure !== undefined && number !== undefined && number > 20 && procedure < number;
      expect(warnings.some((one) => one.kind === 'procedure below calculation')).toBe(below);
    }),
    { numRuns: 500 },
  );
});

test('rounding up never lowers, never adds 5 or more, and is the same a few millionths of a millionth away', () => {
  fc.assert(
    fc.property(between(-200, 900), between(-1e-9, 1e-9), (value, noise) => {
      const up = roundedUp(value);
      expect(up).toBeGreaterThanOrEqual(steady(value));
      expect(up - steady(value)).toBeLessThan(5);
      const whole = Math.round(value / 5) * 5;
      expect(roundedUp(whole + noise)).toBe(whole === 0 ? roundedUp(0) : whole);
    }),
  );
});
