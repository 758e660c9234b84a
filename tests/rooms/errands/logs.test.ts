/** Logs judged for the page: what is asked first, what is told, and the same judgement as the command line gives. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { viewLogs } from '../../../server/errands/logs.ts';
import { readProgram } from '../../../server/program.ts';
import { readDemonstrationJoint } from '../../../server/station/demonstration.ts';
import { actsText, freshRow, missingIn } from '../../../web/pages/judge/act-rows.ts';
import { columnRows, questionsOf } from '../../../web/pages/judge/logs-draft.ts';

const data = new URL('../../../demo-data/', import.meta.url);
const text = readFileSync(new URL('demonstration-log.csv', data), 'utf8');
const events = readFileSync(new URL('demonstration-events.csv', data), 'utf8');
const joint = readDemonstrationJoint(new URL('demonstration-joint.json', data));
const program = readProgram();
const log = (written: string) => [{ name: 'log.csv', bytes: new TextEncoder().encode(written) }];
const unitless = text.replaceAll(' (°C)', '');

describe('logs on the page', () => {
  it('are judged with what was done', async () => {
    const view = await viewLogs({ joint, logs: log(text), mapping: {}, events: [{ text: events }] }, program);
    expect(view.problems).toEqual([]);
    expect(view.assessment).toMatchObject({ verdict: 'complies', source: { kind: 'imported' } });
  });

  it('are not judged while something has to be asked', async () => {
    const view = await viewLogs({ joint, logs: log(unitless), mapping: {}, events: [] }, program);
    expect(view.assessment).toBeUndefined();
    expect([...questionsOf(view, {}).open.keys()]).toEqual(['unit']);
    const answered = await viewLogs({ joint, logs: log(unitless), mapping: { unit: 'C' }, events: [] }, program);
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
    const row = { ...freshRow('heat on', { who: 'K. "Kit" Heater' }), time: '60' };
    const pass = { ...freshRow('pass start', row), time: '5760', pass: '1' };
    expect(missingIn({ ...pass, pass: '' })).toEqual(['Pass']);
    const view = await viewLogs(
      { joint, logs: log(text), mapping: {}, events: [{ text: actsText([row, pass]) }] },
      program,
    );
    expect(view.problems).toEqual([]);
    expect(view.assessment?.passes.map(({ pass, startedAt }) => [pass, startedAt % 86_400_000])).toEqual([
      ['1', 5_760_000],
    ]);
    const wrong = await viewLogs(
      { joint, logs: log(text), mapping: {}, events: [{ text: actsText([{ ...pass, pass: '' }]) }] },
      program,
    );
    expect(wrong.assessment).toBeUndefined();
    expect(wrong.problems[0]?.message).toMatch(/^acts: /);
  });
});
