/** The explanation goes by the minimum that governs. */
import { expect, test } from 'vitest';
import { explain } from '../../../server/metallurgy/explanation.ts';
import { plainJoint, plainPart, plainProcedure, withPercent } from '../../support/plain-joint.ts';

const weldShape = 'between runs of a butt weld' as const;

test('cooling begins at the minimum that governs, and goes with a procedure that changes it', () => {
  const computed = explain(plainJoint({ weldShape }), []);
  expect(computed.requirement.governing.preheatMinimumCelsius).toBe(145);
  expect(computed.cooling.parts[0]!.rows[0]!.celsius).toBe(145);
  const bound = explain(plainJoint({ weldShape, procedure: plainProcedure }), []);
  expect(bound.cooling.parts[0]!.rows.map((row) => row.celsius)).toEqual([150, 175, 200, 225, 250]);
  expect(bound.upperLimits.statedCelsius).toBe(250);
});

test('an accepted extended range carries through; without it cooling asks for a minimum', () => {
  const joint = plainJoint({ weldShape, parts: [plainPart({ thicknessMillimetres: 120 })] });
  expect(explain(joint, []).cooling.parts[0]!.missing).toEqual(['the minimum preheat, which nothing governs yet']);
  const accepted = explain(joint, [{ subject: 'extended range', who: 'A. Person' }]);
  expect(accepted.cooling.parts[0]!.rows[0]!.celsius).toBe(accepted.requirement.governing.preheatMinimumCelsius);
});

test('no preheat needed still cools from the 20 °C that are judged', () => {
  const soft = plainPart({ thicknessMillimetres: 20, analyses: [withPercent({ C: 0.1, Mn: 1.2 })] });
  const { cooling, requirement } = explain(plainJoint({ weldShape, parts: [soft] }), []);
  expect(requirement.governing.kind).toBe('no preheat needed');
  expect(cooling.parts[0]!.rows[0]!.celsius).toBe(20);
});
