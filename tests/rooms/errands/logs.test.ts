/** Logs judged for the page: what is asked first, what is told, and the same judgement as the command line gives. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { viewLogs } from '../../../server/errands/logs.ts';
import { readProgram } from '../../../server/program.ts';
import { readDemonstrationJoint } from '../../../server/station/demonstration.ts';
import { eventKinds } from '../../../server/wire/event-act.ts';
import { readEvents } from '../../../server/wire/events-file.ts';
import { type ActRow, actFields, actKinds, actsText, freshRow, missingIn } from '../../../web/pages/judge/act-rows.ts';
import { columnRows, questionsOf } from '../../../web/pages/judge/logs-draft.ts';
import { jointOn } from '../../support/pipeline-bench.ts';

const data = new URL('../../../demo-data/', import.meta.url);
const text = readFileSync(new URL('demonstration-log.csv', data), 'utf8');
const events = readFileSync(new URL('demonstration-events.csv', data), 'utf8');
const joint = readDemonstrationJoint(new URL('demonstration-joint.json', data));
const program = readProgram();
const log = (written: string) => [{ name: 'log.csv', bytes: new TextEncoder().encode(written) }];
const small = jointOn('frame-7', 'L');
const smallLog = ['Time (s),L-1,L-2', ...Array.from({ length: 30 }, (_, row) => `${row * 10},160,161`)].join('\n');

describe('logs on the page', () => {
  it('are judged with what was done', async () => {
    const view = await viewLogs({ joint, logs: log(text), mapping: {}, events: [{ text: events }] }, program);
    expect(view.problems).toEqual([]);
    expect(view.assessment).toMatchObject({ verdict: 'complies', source: { kind: 'imported' } });
  });

  it('are not judged while something has to be asked', async () => {
    const asked = await viewLogs({ joint: small, logs: log(smallLog), mapping: {}, events: [] }, program);
    expect(asked.assessment).toBeUndefined();
    expect([...questionsOf(asked, {}).open.keys()]).toEqual(['unit']);
    const answered = await viewLogs({ joint: small, logs: log(smallLog), mapping: { unit: 'C' }, events: [] }, program);
    expect(answered.assessment?.verdict).toBe('cannot-be-judged');
    expect(questionsOf(answered, { unit: 'C' })).toMatchObject({ answered: ['unit'] });
  });

  it('show which column was taken for which probe', async () => {
    const renamed = text.replace('zone A (°C)', 'Channel 1 (°C)');
    const view = await viewLogs({ joint, logs: log(renamed), mapping: {}, events: [] }, program);
    expect([...questionsOf(view, {}).open.keys()]).toEqual(['columns']);
    expect(columnRows(view.files[0]!).slice(0, 2)).toEqual([
      { column: 'Channel 1 (°C)', probe: '', unit: '' },
      { column: 'zone B (°C)', probe: 'zone B', unit: 'C' },
    ]);
  });

  it('take acts that were typed on the page by the rules of an events file', async () => {
    const row = { ...freshRow('heat on', { who: 'K. "Kit" Heater' }), time: '0' };
    const pass = { ...freshRow('pass start', row), time: '120', pass: '1' };
    const judged = (rows: readonly ActRow[]) =>
      viewLogs(
        { joint: small, logs: log(smallLog), mapping: { unit: 'C' }, events: [{ text: actsText(rows) }] },
        program,
      );
    const view = await judged([row, pass]);
    expect(view.problems).toEqual([]);
    expect(view.assessment?.passes.map(({ pass, startedAt }) => [pass, startedAt % 86_400_000])).toEqual([
      ['1', 120_000],
    ]);
    expect(missingIn({ ...pass, pass: '' })).toEqual(['Pass']);
    const wrong = await judged([{ ...pass, pass: '' }]);
    expect(wrong.assessment).toBeUndefined();
    expect(wrong.problems[0]?.message).toMatch(/^acts: /);
  });

  it('are put right file by file: what holds for one does not hold for the other', async () => {
    const file = (name: string, body: string, own = {}) => ({ name, bytes: new TextEncoder().encode(body), own });
    const at = (minute: number) => `2026-03-02T05:0${minute}:00Z`;
    const first = `Time;L-1;L-2\n${at(0)};100,5;100\n${at(1)};101,5;101\n`;
    const second = `a line of words;of two\nTime;CH1;CH2\n${at(2)};212;392\n${at(3)};212;392\n`;
    const said = { unit: 'C' } as const;
    const asked = await viewLogs(
      { joint: small, logs: [file('a.csv', first), file('b.csv', second)], mapping: said, events: [] },
      program,
    );
    expect([...questionsOf(asked, said).open.keys()]).toEqual(['columns']);
    expect(asked.files[1]?.begins[1]).toEqual({ line: 2, text: 'Time;CH1;CH2' });
    const own = { columns: { CH1: 'L-1', CH2: 'L-2' }, units: { CH1: 'F', CH2: 'F' } } as const;
    const right = await viewLogs(
      { joint: small, logs: [file('a.csv', first), file('b.csv', second, own)], mapping: said, events: [] },
      program,
    );
    expect(right.files.map(({ read }) => read?.said)).toEqual([
      ['unit of columns that state none'],
      ['which column is which probe', 'unit of columns that state none', 'units of columns'],
    ]);
    expect(right.assessment?.probes.map(({ temperature }) => temperature)).toEqual([100_000, 200_000]);
  });

  it('have their acts by their own clock: the offset of the one file goes before the zone of all', async () => {
    const local = smallLog
      .replace('Time (s)', 'Time')
      .replaceAll(/^(\d+),/gm, (_, at: string) => `2026-07-01 12:${String(Number(at) / 10).padStart(2, '0')}:00,`);
    const logs = [{ name: 'a.csv', bytes: new TextEncoder().encode(local), own: { offsetMinutes: 60 } }];
    const row = { ...freshRow('heat on', { who: 'K. Heater' }), time: '2026-07-01 12:00:00' };
    const pass = { ...freshRow('pass start', row), time: '2026-07-01 12:05:00', pass: '1' };
    const mapping = { unit: 'C', zone: 'Europe/Vienna' } as const;
    const view = await viewLogs({ joint: small, logs, mapping, events: [{ text: actsText([row, pass]) }] }, program);
    // In summer Vienna is two hours ahead; this logger's clock is never changed.
    expect(view.files[0]?.firstAt).toBe(Date.parse('2026-07-01T11:00:00Z'));
    expect(view.assessment?.passes[0]?.startedAt).toBe(Date.parse('2026-07-01T11:05:00Z'));
  });

  it.each(actKinds)('the page asks for all that "%s" needs', (kind) => {
    const filled: Record<string, string> = {
      place: 'plate/A/front/10',
      celsius: '180',
      'speed mm/s': '',
      volts: '',
      method: 'MT',
    };
    const typed = (actFields[kind] ?? []).filter(({ choices }) => choices === undefined);
    const row = {
      ...freshRow(kind, { who: 'Odd Varen' }),
      time: '60',
      ...Object.fromEntries(typed.map(({ column }) => [column, filled[column] ?? (column === 'amperes' ? '' : 'x')])),
    };
    expect(missingIn(row)).toEqual([]);
    const before = kind === 'pass end' ? [{ ...freshRow('pass start', row), time: '30', pass: 'x' }] : [];
    expect(readEvents(actsText([...before, row])).problems).toEqual([]);
  });

  it('what is not entered on the page comes by an events file', () => {
    expect(eventKinds.filter((kind) => !actKinds.includes(kind))).toEqual([
      'pass details',
      'accept',
      'calibration',
      'verification',
      'adjustment',
    ]);
  });
});
