/** The register of instruments: what does not fit is refused at its field, and a joint without one stays as it was. */
import { expect, test } from 'vitest';
import { endOfDay, isDay } from '../../../server/weld/day.ts';
import { readJoint } from '../../../server/weld/read-joint.ts';
import { girder } from '../../support/station/joints.ts';

const joint = girder;
const [probe] = joint.probes;
const wire = { id: 'W-1', kind: 'wire lot', thermocouple: probe!.thermocouple, toleranceClass: 'IEC 60584-1 class 1' };
const board = { id: 'B-1', kind: 'board', board: probe!.board };
const fieldsOf = (instruments: readonly object[], chain: object = {}, procedure: object = {}): string[] => {
  const probes = joint.probes.map((each, index) => (index === 0 ? { ...each, ...chain } : each));
  const read = readJoint({ ...joint, probes, instruments, procedure: { ...joint.procedure, ...procedure } });
  return 'problems' in read ? read.problems.map(({ field }) => field) : [];
};

test('wires, cables, boards and hand instruments are taken in', () => {
  const cable = { id: 'X-1', kind: 'extension cable', thermocouple: probe!.thermocouple };
  const hand = { id: 'CT-1', kind: 'contact thermometer', maximumErrorKelvin: 2 };
  expect(fieldsOf([wire, cable, board, hand], { wire: 'W-1', extension: 'X-1' })).toEqual([]);
  expect(fieldsOf([wire, board], { wire: 'W-1', extension: 'none', attachmentErrorKelvin: 0 })).toEqual([]);
});

test.each([
  ['an id that stands twice', [wire, wire], {}, 'instruments.1.id'],
  ['a board of an identity that another has', [board, { ...board, id: 'B-2' }], {}, 'instruments.1.board'],
  ['a board without identity', [{ id: 'B-1', kind: 'board' }], {}, 'instruments.0.board'],
  ['a module without channels', [{ ...board, kind: 'module' }], {}, 'instruments.0.channels'],
  ['a wire without type', [{ id: 'W-1', kind: 'wire lot' }], {}, 'instruments.0.thermocouple'],
  [
    'a class of cable on a wire',
    [{ ...wire, toleranceClass: 'IEC 60584-3 class 1' }],
    {},
    'instruments.0.toleranceClass',
  ],
  ['a class on a crayon', [{ ...wire, kind: 'crayon' }], {}, 'instruments.0.toleranceClass'],
  ['a day that is none', [{ ...wire, calibratedOn: '2026-02-30' }], {}, 'instruments.0.calibratedOn'],
  [
    'due before it was calibrated',
    [{ ...wire, calibratedOn: '2026-02-03', dueOn: '2026-02-02' }],
    {},
    'instruments.0.dueOn',
  ],
  ['a wire that is not in the register', [board], { wire: 'W-1' }, 'probes.0.wire'],
  [
    'a cable as wire',
    [{ ...wire, id: 'X', kind: 'extension cable', toleranceClass: undefined }],
    { wire: 'X' },
    'probes.0.wire',
  ],
  [
    'a wire of another type',
    [{ ...wire, thermocouple: probe!.thermocouple === 'J' ? 'K' : 'J' }],
    { wire: 'W-1' },
    'probes.0.wire',
  ],
])('%s is refused at its field', (_, instruments, chain, field) => {
  expect(fieldsOf(instruments, chain)).toEqual([field]);
});

test('points of a certificate stand in ascending order', () => {
  const point = (atCelsius: number) => ({ atCelsius, correctionKelvin: 1, expandedKelvin: 1, coverageFactor: 2 });
  expect(fieldsOf([{ ...wire, corrections: [point(200), point(100)] }])).toEqual([
    'instruments.0.corrections.1.atCelsius',
  ]);
});

test('a guarded rule needs its width, and simple acceptance has none', () => {
  expect(fieldsOf([], {}, { decisionRule: 'guarded' })).toEqual(['procedure.guardFactor']);
  expect(fieldsOf([], {}, { decisionRule: 'guarded', guardFactor: 1.645 })).toEqual([]);
  expect(fieldsOf([], {}, { guardFactor: 1.645 })).toEqual(['procedure.guardFactor']);
});

test.each(['1969-12-31', '1970-01-01', '2000-02-29', '2026-03-01', '2100-12-31'])(
  '%s ends with its last millisecond',
  (day) => {
    // The calendar of the platform (ECMA-262), which the program does without.
    expect(endOfDay(day)).toBe(Date.parse(`${day}T23:59:59.999Z`));
    expect(isDay(day)).toBe(true);
  },
);

test.each(['2026-02-29', '2100-02-29', '2026-13-01', '2026-00-10', '2026-04-31', '1899-01-01', '2026-1-5', '2026'])(
  '%s is no day',
  (day) => {
    expect(isDay(day)).toBe(false);
  },
);
