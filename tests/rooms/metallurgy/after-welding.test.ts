/** What comes after the last pass: published ranges beside the procedure's post-heating, and never one number of hydrogen. */
import { expect, test } from 'vitest';
import { afterWelding } from '../../../server/metallurgy/after-welding.ts';
import { plainJoint, plainPart } from '../../support/plain-joint.ts';

test('post-heating of the procedure is shown with the range of hydrogen that it leaves in the thickest part', () => {
  const parts = [plainPart(), plainPart({ id: 'thin', thicknessMillimetres: 20 })];
  const after = afterWelding(plainJoint({ parts, postHeating: { celsius: 300, hours: 4 } }));
  expect(after.thickestMillimetres).toBe(80);
  expect(after.postHeating!.residual!.mean).toEqual({
    lowest: expect.closeTo(0.7367, 4),
    highest: expect.closeTo(0.8172, 4),
  });
  expect(after.postHeating!.notes.join()).toContain('extrapolated');
});

test('without post-heating the published ranges stand alone, with the hours of this thickness', () => {
  const after = afterWelding(plainJoint());
  expect(after).not.toHaveProperty('postHeating');
  const bridge = after.published.find((one) => one.source === 'AWS D1.5')!;
  expect([bridge.celsiusMinimum, bridge.celsiusMaximum, bridge.hoursMinimum]).toEqual([230, 315, 3.2]);
  expect(bridge.status).toBe('from memory');
});

test('above 427 °C and for what is not ferritic no share of hydrogen is given, and it says why', () => {
  const hot = afterWelding(plainJoint({ postHeating: { celsius: 600, hours: 2 } })).postHeating!;
  expect(hot).not.toHaveProperty('residual');
  expect(hot.notes[0]).toContain('heat treatment');
  const consumable = { hydrogen: 'not stated', deposit: 'austenitic' } as const;
  const foreign = afterWelding(plainJoint({ consumable, postHeating: { celsius: 250, hours: 2 } })).postHeating!;
  expect(foreign).not.toHaveProperty('residual');
  expect(foreign.notes[0]).toContain('ferritic');
});

test('a wait shows how little is certain of what leaves at 20 °C', () => {
  const parts = [plainPart({ thicknessMillimetres: 50, yieldMegapascals: 460 })];
  const { waiting } = afterWelding(plainJoint({ parts, waitingEdition: 'North Sea practice' }));
  expect(waiting.kind === 'waits' && waiting.residual!.mean).toEqual({
    lowest: expect.closeTo(0.2357, 4),
    highest: expect.closeTo(0.9504, 4),
  });
});
