/**
 * Waiting before the last test. EN 1090-2:2008 table 23, the UK structural specification of 2007, EN 1011-2:2001
 * clause 18 and a North Sea specification: verified. AWS D1.1: from memory. The case of 65 mm, S420, 2.5 kJ/mm is
 * worked by hand: welding ends at 14:00, the test is at 06:00 of the next day at the earliest.
 */
import { expect, test } from 'vitest';
import { afterWelding, type Waiting } from '../../server/metallurgy/after-welding.ts';
import { waitingEditions } from '../../server/weld/code.ts';
import type { Joint } from '../../server/weld/joint.ts';
import type { Part } from '../../server/weld/part.ts';
import { plainJoint, plainPart } from '../support/plain-joint.ts';

const wait = (joint: Partial<Joint>, part: Partial<Part> = {}): Waiting =>
  afterWelding(plainJoint({ ...joint, parts: [plainPart(part)] })).waiting;
const hours = (joint: Partial<Joint>, part: Partial<Part> = {}) => {
  const found = wait(joint, part);
  return found.kind === 'waits' ? found.hours : found.kind;
};
const q = (kilojoulesPerMillimetre: number) => ({ kilojoulesPerMillimetre });

const en1090 = [
  [6, 1, 0, 24],
  [6, 5, 0, 24],
  [6.1, 3, 8, 24],
  [12, 3, 8, 24],
  [12, 3.1, 16, 40],
  [12.1, 3, 16, 40],
  [80, 3.1, 40, 48],
] as const;

test.each(en1090)(
  'EN 1090-2:2008: %d mm at %d kJ/mm waits %i h, or %i h for S460 and above',
  (size, heat, low, high) => {
    const joint = { waitingEdition: 'EN 1090-2:2008', weldSizeMillimetres: size, heatInput: q(heat) } as const;
    expect(hours(joint, { yieldMegapascals: 420 })).toBe(low);
    expect(hours(joint, { yieldMegapascals: 460 })).toBe(high);
    // A thick plate of S460 has a lower yield; it is on the longer side all the same.
    expect(hours(joint, { yieldMegapascals: 430 })).toBe(high);
    const uk = { ...joint, waitingEdition: 'UK structural specification 2007' } as const;
    expect(hours(uk)).toBe(low);
  },
);

test('65 mm of S420 at 2.5 kJ/mm, ended at 14:00: tested at 06:00 of the next day', () => {
  const joint = { waitingEdition: 'EN 1090-2:2008', heatInput: q(2.5) } as const;
  const waited = wait(joint, { thicknessMillimetres: 65, yieldMegapascals: 420 });
  expect(waited).toMatchObject({ kind: 'waits', hours: 16, sizeMillimetres: 65 });
  const end = Date.UTC(2026, 2, 2, 14);
  expect(new Date(end + (waited.kind === 'waits' ? waited.hours : 0) * 3_600_000).toISOString()).toBe(
    '2026-03-03T06:00:00.000Z',
  );
});

test('the steel class and the heat input are asked for together, never assumed', () => {
  const asked = wait({ waitingEdition: 'EN 1090-2:2008', heatInput: 'not stated' });
  expect(asked.kind === 'asks' && asked.missing).toHaveLength(2);
  expect(
    hours(
      { waitingEdition: 'EN 1090-2:2008', heatInput: 'not stated', weldSizeMillimetres: 5 },
      { yieldMegapascals: 355 },
    ),
  ).toBe(0);
});

test('without an edition nothing is chosen: the list is shown', () => {
  const open = wait({});
  expect(open.kind === 'not chosen' && open.choices.map((one) => one.edition)).toEqual([...waitingEditions]);
});

test('EN 1011-2 clause 18: 16 h, more by thickness and yield without a number, none after hydrogen release', () => {
  const edition = { waitingEdition: 'EN 1011-2:2001' } as const;
  const thick = wait(edition, { yieldMegapascals: 355 });
  expect(thick).toMatchObject({ kind: 'waits', hours: 16 });
  expect(thick.kind === 'waits' && thick.notes.join()).toContain('thicker than 50 mm');
  const strong = wait(edition, { thicknessMillimetres: 40, yieldMegapascals: 690 });
  expect(strong.kind === 'waits' && strong.notes.join()).toContain('above 500 MPa');
  const plain = wait(edition, { thicknessMillimetres: 50, yieldMegapascals: 500 });
  expect(plain.kind === 'waits' && plain.notes).toEqual([]);
  expect(hours({ ...edition, postHeating: { celsius: 250, hours: 3 } })).toBe(0);
  expect(hours({ ...edition, postHeating: { celsius: 120, hours: 3 } })).toBe(16);
});

test('North Sea practice is 48 h; AWS D1.1 gives 48 h for quenched and tempered 690 and nothing else', () => {
  expect(hours({ waitingEdition: 'North Sea practice' })).toBe(48);
  const aws = { waitingEdition: 'AWS D1.1' } as const;
  expect(hours(aws, { kind: 'quenched and tempered 690' })).toBe(48);
  expect(hours(aws, { kind: 'C-Mn and fine grain' })).toBe('silent');
  expect(hours(aws)).toBe('asks');
});

test('post-heating does not shorten the time of EN 1090-2; it may, and the note says so', () => {
  const joint = { waitingEdition: 'EN 1090-2:2008', postHeating: { celsius: 250, hours: 4 } } as const;
  const waited = wait(joint, { yieldMegapascals: 355 });
  expect(waited).toMatchObject({ kind: 'waits', hours: 16 });
  expect(waited.kind === 'waits' && waited.notes.join()).toContain('may be shortened');
});
