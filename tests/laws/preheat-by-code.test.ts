/**
 * Laws over all methods: every one rises with what makes steel crack; and with any code, procedure, floor, binding
 * calculation and acceptance the judged value follows the rule, which is said here again in another way.
 */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { Acceptance } from '../../server/metallurgy/answer.ts';
import { equivalentDefinitions } from '../../server/metallurgy/equivalents/list.ts';
import { methodBTerms } from '../../server/metallurgy/methods/en-1011-2-method-b.ts';
import { methods } from '../../server/metallurgy/methods/list.ts';
import { requirement } from '../../server/metallurgy/requirement.ts';
import { elements } from '../../server/weld/composition.ts';
import type { Joint } from '../../server/weld/joint.ts';
import { plainJoint, plainPart, plainProcedure, withPercent } from '../support/plain-joint.ts';

// One seed, so that every run tries the same cases.
fc.configureGlobal({ seed: 20_012 });

const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });

test('every carbon equivalent rises with every element it holds, and with carbon strictly', () => {
  const contents = fc.record(Object.fromEntries(elements.map((element) => [element, between(0, 1)])));
  fc.assert(
    fc.property(contents, fc.constantFrom(...elements), between(0.001, 0.3), (at, element, step) => {
      for (const { compute, needs, id } of equivalentDefinitions) {
        const rise = compute((one) => at[one]! + (one === element ? step : 0)) - compute((one) => at[one]!);
        if (needs.includes(element)) expect(rise, `${id} with ${element}`).toBeGreaterThan(0);
        else expect(rise, `${id} with ${element}`).toBe(0);
      }
    }),
  );
});

test('no method that gives a number for both asks for less with more carbon, hydrogen, thickness or restraint', () => {
  const restraints = ['low', 'medium', 'high'] as const;
  const jobs = fc.record({
    c: between(0.08, 0.2),
    hd: between(1, 18),
    d: between(10, 60),
    restraint: fc.constantFrom(...restraints),
  });
  const numbers = ({ c, hd, d, restraint }: { c: number; hd: number; d: number; restraint: Joint['restraint'] }) =>
    new Map(
      requirement(
        plainJoint({
          ...(restraint === undefined ? {} : { restraint }),
          units: 'metric',
          parts: [
            plainPart({
              thicknessMillimetres: d,
              awsCategory: 'B',
              pNumber: '3',
              tensileMegapascals: 440,
              analyses: [withPercent({ C: c, Mn: 1.2 })],
            }),
          ],
          consumable: { hydrogen: { millilitresPer100Grams: hd } },
        }),
        [],
      ).methods.map((one) => [one.id, one.computedCelsius]),
    );
  const seen = new Set<string>();
  fc.assert(
    fc.property(jobs, fc.constantFrom('c', 'hd', 'd', 'restraint'), between(0, 0.2), (at, name, step) => {
      const more =
        name === 'restraint'
          ? { ...at, restraint: restraints[Math.min(2, restraints.indexOf(at.restraint) + 1)]! }
          : { ...at, [name]: at[name] * (1 + step) };
      const before = numbers(at);
      for (const [id, after] of numbers(more)) {
        const was = before.get(id);
        if (was === undefined || after === undefined) continue;
        seen.add(id);
        expect(after, `${id} with more ${name}`).toBeGreaterThanOrEqual(was);
      }
    }),
    { numRuns: 300 },
  );
  // The law is about every method that gives a temperature, or it would say nothing.
  const silent = ['en-1011-2-method-a', 'yurioka-cen'];
  expect([...seen].sort()).toEqual(
    methods
      .map(({ id }) => id)
      .filter((id) => !silent.includes(id))
      .sort(),
  );
});

const methodB = 'en-1011-2-method-b';
const hydrogenControl = 'aws-d1-1-hydrogen-control';
/** The plain steel at 5 ml/100 g is of group C; the metric rows up to 10, 20, 75 mm and above, from memory. */
const groupC = {
  low: { 8: 20, 20: 20, 60: 40, 120: 40 },
  medium: { 8: 20, 20: 20, 60: 110, 120: 140 },
  high: { 8: 20, 20: 65, 60: 150, 120: 150 },
} as const;

const cases = fc.record({
  d: fc.constantFrom(8, 20, 60, 120),
  codeSet: fc.constantFrom(undefined, 'EN 1011-2', 'AWS D1.1', 'ASME B31.3:2014'),
  restraint: fc.constantFrom(undefined, 'low', 'medium', 'high'),
  pNumber: fc.boolean(),
  procedure: fc.option(fc.integer({ min: 0, max: 240 }), { nil: undefined }),
  floor: fc.option(fc.integer({ min: -10, max: 240 }), { nil: undefined }),
  binding: fc.subarray([methodB, hydrogenControl]),
  accepted: fc.boolean(),
});
type Case = typeof cases extends fc.Arbitrary<infer Of> ? Of : never;

test('the judged value obeys the rule for every code, restraint, procedure, floor, binding calculation and acceptance', () => {
  fc.assert(
    fc.property(cases, (at) => {
      const acceptances: Acceptance[] = at.accepted ? [{ subject: 'extended range', who: 'A. Example' }] : [];
      const { governing, warnings } = requirement(jointOf(at), acceptances);
      const expected = expectedOf(at);
      expect(governing.preheatMinimumCelsius).toBe(expected);
      expect(governing.kind === 'none').toBe(expected === undefined);
      const { highest } = calculated(at);
      const below = at.procedure !== undefined && highest !== undefined && highest > 20 && at.procedure < highest;
      const [warning] = warnings.filter((one) => one.kind === 'procedure below calculation');
      expect(warning !== undefined).toBe(below);
      // It wants a name unless what is judged has been raised to the calculation anyhow.
      if (below) expect(warning!.wantsAnswer).toBe((expected ?? at.procedure!) < highest);
    }),
    { numRuns: 1000 },
  );
});

function jointOf({ d, codeSet, restraint, pNumber, procedure, floor, binding }: Case): Joint {
  return plainJoint({
    units: 'metric',
    parts: [plainPart({ thicknessMillimetres: d, ...(pNumber ? { pNumber: '4' } : {}) })],
    ...(codeSet === undefined ? {} : { codeSet }),
    ...(restraint === undefined ? {} : { restraint }),
    ...(procedure === undefined ? {} : { procedure: { ...plainProcedure, preheatMinimumCelsius: procedure } }),
    ...(floor === undefined ? {} : { codeFloor: { preheatMinimumCelsius: floor, source: 'Code X' } }),
    bindingMethods: binding,
  });
}

/** What each calculation gives, and whether it may count here. */
function calculated({ d, codeSet, restraint, binding, accepted }: Case) {
  const sum = methodBTerms({ cet: 0.32725, d, hd: 5, q: 1.5 }).reduce((all, { value }) => all + value, 0);
  const b = d < 10 ? undefined : sum;
  const control = restraint === undefined ? undefined : groupC[restraint][d as 8];
  const mayB = codeSet !== 'AWS D1.1' || binding.includes(methodB);
  const mayControl =
    codeSet === 'AWS D1.1' || (codeSet === undefined && restraint !== undefined) || binding.includes(hydrogenControl);
  const numbers = [...(mayB && b !== undefined ? [b] : []), ...(mayControl && control !== undefined ? [control] : [])];
  return {
    highest: numbers.length === 0 ? undefined : Math.max(...numbers),
    silentBinding:
      (binding.includes(methodB) && b === undefined) || (binding.includes(hydrogenControl) && control === undefined),
    judged: [
      ...(mayB && b !== undefined && (d <= 90 || accepted)
        ? [{ id: methodB, celsius: b <= 20 ? 20 : Math.ceil(b / 5) * 5 }]
        : []),
      ...(mayControl && control !== undefined ? [{ id: hydrogenControl, celsius: control }] : []),
    ],
  };
}

/** With a procedure: it, raised by floors and binding calculations. Without: the highest that counts, and the floors. */
function expectedOf(at: Case): number | undefined {
  const { judged, silentBinding } = calculated(at);
  if (silentBinding) return undefined;
  const floors = [
    ...(at.floor === undefined ? [] : [at.floor]),
    ...(at.codeSet === 'ASME B31.3:2014' && at.pNumber ? [120] : []),
  ];
  if (at.procedure !== undefined) {
    const binding = judged.filter(({ id, celsius }) => at.binding.includes(id) && celsius > 20);
    return Math.max(at.procedure, ...floors, ...binding.map(({ celsius }) => celsius));
  }
  if (judged.length === 0) return undefined;
  return Math.max(...judged.map(({ celsius }) => celsius), ...floors);
}
