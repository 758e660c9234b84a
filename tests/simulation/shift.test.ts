/** The three finished jobs of the demonstration, played by emulated boards through the real trip, end as they are meant to. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Assessment } from '../../server/judgement/assessment.ts';
import { judgeAll } from '../../server/judgement/judge.ts';
import { readProgram } from '../../server/program.ts';
import { openRecordReadOnly, type RecordReader } from '../../server/record/read.ts';
import { workShift } from '../../server/station/shift/shift.ts';

const home = mkdtempSync(join(tmpdir(), 'preheat-shift-'));
const folder = join(home, 'record');
const joints = new URL('../../demo-data/shift/', import.meta.url);
let record: RecordReader;

describe('the shift', () => {
  beforeAll(async () => {
    await workShift({ folder, joints, program: readProgram(), before: 0, tell: () => {} });
    record = openRecordReadOnly(folder);
  }, 240_000);
  afterAll(() => {
    record?.close();
    rmSync(home, { recursive: true, force: true });
  });
  const judged = (joint: string): Assessment => judgeAll(record.inputs(joint)).assessment;
  const kinds = ({ findings }: Assessment, severity: string): string[] =>
    [...new Set(findings.filter((each) => each.severity === severity).map(({ kind }) => kind))].sort();

  it('has a job that goes well, from the check of the probes to the test after the wait', () => {
    const job = judged('node-7');
    expect(kinds(job, 'nonconformity')).toEqual([]);
    expect(kinds(job, 'not judged')).toEqual([]);
    expect(job).toMatchObject({ phase: 'closed', verdict: 'complies', source: { kind: 'simulated' } });
    expect(job.passes.map(({ pass }) => pass)).toEqual(['1', '2', '3', '4', '5']);
    expect(job.after).toMatchObject({ postHeating: { state: 'done' }, wait: { state: 'over' } });
    expect(job.after!.spots.every(({ examined }) => examined !== undefined)).toBe(true);
    expect(job.ambientCheck?.made?.probes.every(({ outcome }) => outcome === 'in order')).toBe(true);
  });

  it('has a job with a break that went cold and was dealt with as the procedure asks', () => {
    const job = judged('post-12');
    expect(job.phase).toBe('closed');
    expect(job.breaks).toHaveLength(1);
    expect(job.passes.map(({ pass }) => pass)).toEqual(['1', '2', '3']);
    expect(
      job.findings.filter(({ severity, disposition }) => severity !== 'remark' && disposition === undefined),
    ).toEqual([]);
  });

  it('names no sound probe as suspect, however seldom it is read and however near it is to the arc', () => {
    for (const id of ['node-7', 'post-12', 'body-3'])
      expect(kinds(judged(id), 'remark')).not.toContain('probe suspect');
  });

  it('has a job that fails, since passes were begun below the minimum', () => {
    const job = judged('body-3');
    expect(job).toMatchObject({ phase: 'closed', verdict: 'does-not-comply' });
    expect(kinds(job, 'nonconformity')).toContain('below minimum at pass start');
  });
});
