/** The register on the screen: its order, and the acts that its forms make. */
import { expect, test } from 'vitest';
import type { InstrumentStatus } from '../../../server/judgement/measuring/instrument-status.ts';
import { instrumentActOf, instrumentDraft } from '../../../web/pages/joint/instrument-draft.ts';
import { registerRows } from '../../../web/pages/joint/register-rows.ts';
import { girderScript } from '../../support/station/scripts.ts';
import { momentOf } from './page-fixture.ts';

const { live, now } = momentOf(girderScript, 12);
const board = { id: 'B-1', kind: 'board' as const, board: 'board-1', dueOn: '2026-12-31' };
const joint = { ...live.joint, instruments: [board] };

test('what needs somebody stands first, then what runs out soonest', () => {
  const status = (id: string, calibration: InstrumentStatus['calibration'], dueOn?: string): InstrumentStatus => ({
    instrument: { id, kind: 'crayon', ...(dueOn === undefined ? {} : { dueOn }) },
    calibration,
  });
  const rows = registerRows({
    instruments: [
      status('late', 'valid', '2027-05-01'),
      status('soon', 'valid', '2026-12-01'),
      status('open', 'valid'),
      status('unknown', 'not known'),
      status('overdue', 'overdue', '2026-01-01'),
      status('failed', 'failed'),
    ],
  });
  expect(rows.map(({ instrument }) => instrument.id)).toEqual(['failed', 'overdue', 'unknown', 'soon', 'late', 'open']);
  expect(rows.filter(({ needs }) => needs)).toHaveLength(3);
});

test('a calibration keeps its points, and holds from now or from the beginning', () => {
  const draft = {
    instrument: 'B-1',
    certificate: 'C-9',
    calibratedOn: '2026-11-01',
    at0: '150',
    correction0: '-0,4',
    expanded0: '0.8',
    factor0: '2',
    openedAt: String(now - 60_000),
  };
  const corrections = [{ atCelsius: 150, correctionKelvin: -0.4, expandedKelvin: 0.8, coverageFactor: 2 }];
  const act = { kind: 'calibration', instrument: 'B-1', certificate: 'C-9', calibratedOn: '2026-11-01', corrections };
  expect(instrumentActOf('calibration', { ...draft, holds: 'now' }, joint, now)).toEqual({ ok: true, act });
  expect(instrumentActOf('calibration', { ...draft, holds: 'beginning' }, joint, now)).toEqual({
    ok: true,
    act: { ...act, happenedAt: now - 60_000 },
  });
});

test('what is wrong is told at its field', () => {
  const wrong = { instrument: 'B-1', certificate: '', calibratedOn: '1.11.2026', at0: '150', correction0: 'x' };
  const made = instrumentActOf('calibration', wrong, joint, now);
  expect(made.ok ? [] : Object.keys(made.problems).sort()).toEqual([
    'calibratedOn',
    'certificate',
    'correction0',
    'expanded0',
  ]);
});

test('an instrument is put into the joint, or changed in its place', () => {
  const entered = { ...instrumentDraft(undefined), id: 'CT-1', maximumErrorKelvin: '3', before: '' };
  expect(instrumentActOf('instrument', entered, joint, now)).toMatchObject({
    ok: true,
    act: {
      kind: 'revise',
      joint: { instruments: [board, { id: 'CT-1', kind: 'contact thermometer', maximumErrorKelvin: 3 }] },
    },
  });
  const changed = { ...instrumentDraft(board), before: 'B-1', dueOn: '2027-12-31', reason: 'calibrated anew' };
  expect(instrumentActOf('instrument', changed, joint, now)).toMatchObject({
    ok: true,
    act: { joint: { instruments: [{ ...board, dueOn: '2027-12-31' }] }, reason: 'calibrated anew' },
  });
  const twice = { ...entered, id: 'B-1' };
  expect(instrumentActOf('instrument', twice, joint, now)).toMatchObject({
    ok: false,
    problems: { id: expect.any(String) },
  });
});

test('a change keeps the points that a calibration found', () => {
  const corrections = [{ atCelsius: 150, correctionKelvin: -0.4, expandedKelvin: 0.8, coverageFactor: 2 }];
  const draft = { ...instrumentDraft({ ...board, corrections }), before: 'B-1', reason: 'name of the board' };
  expect(instrumentActOf('instrument', draft, joint, now)).toMatchObject({
    ok: true,
    act: { joint: { instruments: [{ ...board, corrections }] } },
  });
});
