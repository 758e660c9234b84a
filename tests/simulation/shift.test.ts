/** The three finished jobs of the demonstration, played by emulated boards through the real trip, end as they are meant to. */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Assessment } from '../../server/judgement/assessment.ts';
import { proceduresChain } from '../../server/ledger/item.ts';
import { bindingFault, keptRevisions } from '../../server/ledger/procedures.ts';
import { builtScript, type Program, readProgram } from '../../server/program.ts';
import { signerBeside } from '../../server/record/key-file.ts';
import { openRecordReadOnly, type RecordReader } from '../../server/record/read.ts';
import type { ReportFacts } from '../../server/report/facts.ts';
import { gather, ofRecord } from '../../server/report/gather.ts';
import { modelText, sectionText } from '../../server/report/page-model.ts';
import { pages } from '../../server/report/pages.ts';
import { workShift } from '../../server/station/shift/shift.ts';
import { newestOf } from '../../server/weld/procedure-act.ts';
import { noBrowser, useBrowser } from '../support/browser.ts';
import { complianceFields } from '../support/compliance-fields.ts';
import {
  everyTamperingIsNamed,
  handOver,
  verifiedByCommand,
  verifiedByItsPage,
  verifiedByItsText,
} from './handed-over.ts';

const shop = mkdtempSync(join(tmpdir(), 'preheat-shift-'));
const folder = join(shop, 'record');
const joints = new URL('../../demo-data/shift/', import.meta.url);
const ids = ['node-7', 'post-12', 'body-3'] as const;
type Id = (typeof ids)[number];
let record: RecordReader;
let program: Program;
const gathered = {} as Record<Id, ReportFacts>;

const browser = useBrowser();

describe('the shift', () => {
  beforeAll(async () => {
    // With its rules as one script, as a station has them that was built.
    const script = builtScript();
    program = { ...readProgram(), ...(script === undefined ? {} : { script }) };
    await workShift({ folder, joints, program, before: 0, tell: () => {} });
    record = openRecordReadOnly(folder);
    for (const id of ids)
      gathered[id] = gather({ ...ofRecord(record, id), program, rules: program.rules, zone: 'Europe/Oslo' });
  }, 480_000);
  afterAll(() => {
    record?.close();
    rmSync(shop, { recursive: true, force: true });
  });
  const judged = (id: Id): Assessment => gathered[id].assessment;
  const kinds = ({ findings }: Assessment, severity: string): string[] =>
    [...new Set(findings.filter((each) => each.severity === severity).map(({ kind }) => kind))].sort();
  const byPeople = (id: Id) =>
    [...record.entries(id)].filter((each) => each.class === 'input' && each.who !== 'station');

  it('has a job that goes well, from the check of the probes to the test after the wait', () => {
    const job = judged('node-7');
    expect(kinds(job, 'nonconformity')).toEqual([]);
    expect(kinds(job, 'not judged')).toEqual([]);
    expect(job).toMatchObject({ phase: 'closed', verdict: 'complies', source: { kind: 'simulated' } });
    expect(job.passes.map(({ pass, heat }) => `${pass} ${heat.state}`)).toEqual(
      ['1', '2', '3', '4', '5'].map((pass) => `${pass} within`),
    );
    expect(job.after).toMatchObject({ postHeating: { state: 'done' }, wait: { state: 'over' } });
    expect(job.after!.spots.every(({ examined }) => examined !== undefined)).toBe(true);
    expect(job.ambientCheck?.made?.probes.every(({ outcome }) => outcome === 'in order')).toBe(true);
    expect(job.checks!.map(({ answered }) => answered?.answer)).toEqual(Array(8).fill('in order'));
    expect(job.points!.map(({ given }) => given?.who)).toEqual(['Mara Lind', 'Odd Karsen', 'Mara Lind']);
  });

  it('has a job with a break that went cold and was dealt with as the procedure asks', () => {
    const job = judged('post-12');
    expect(job.phase).toBe('closed');
    expect(job.breaks).toHaveLength(1);
    expect(job.passes.map(({ pass }) => pass)).toEqual(['1', '2', '3']);
    expect(
      job.findings.filter(({ severity, disposition }) => severity !== 'remark' && disposition === undefined),
    ).toEqual([]);
    expect(kinds(job, 'remark')).toContain('qualification lapsed');
  });

  it('has a job that fails, since passes were begun below the minimum', () => {
    const job = judged('body-3');
    expect(job).toMatchObject({ phase: 'closed', verdict: 'does-not-comply' });
    expect(kinds(job, 'nonconformity')).toContain('below minimum at pass start');
  });

  it('names no sound probe as suspect, however seldom it is read and however near it is to the arc', () => {
    for (const id of ids) expect(kinds(judged(id), 'remark')).not.toContain('probe suspect');
  });

  it('binds each joint to the newest revision that the station keeps; one is changed over to it by an entry', () => {
    const kept = keptRevisions(record.entries(proceduresChain));
    for (const id of ids) {
      const { joint } = gathered[id];
      expect(bindingFault(joint)).toBeUndefined();
      expect(newestOf(kept, joint.procedure!.id)?.sha256).toBe(joint.boundRevision!.sha256);
    }
    expect(byPeople('post-12').map(({ kind }) => kind)).toContain('revise');
  });

  it('reports every field of a compliance record, or names it as not given', () => {
    const named = {} as Record<Id, string>;
    for (const id of ids) {
      const model = pages(gathered[id]);
      const text = modelText(model);
      named[id] = sectionText(model.sections.find(({ heading }) => heading === 'Not given')!);
      const absent = complianceFields
        .filter(({ shown, lacking }) => !shown.test(text) && !(lacking?.test(named[id]) ?? false))
        .map(({ field }) => field);
      expect({ id, absent }).toEqual({ id, absent: [] });
    }
    expect(named['node-7']).toMatch(/Nothing\./);
    expect(named['body-3']).toMatch(/qualification record \(WPQR, PQR\)/);
    expect(named['body-3']).toMatch(/Check of the probes for polarity and offset/);
    expect(named['post-12']).not.toMatch(/WPQR/);
  });

  it('has every entry of a person made by somebody who signed on', () => {
    for (const id of ids) {
      expect(byPeople(id).length).toBeGreaterThan(10);
      expect(byPeople(id).filter(({ proof, person }) => proof !== 'badge' || person === undefined)).toEqual([]);
    }
  });

  /** Of the shortest job, so that it costs little. */
  it('is handed over as a package that verifies without this project, by command, by its text and by its page', async (context) => {
    const made = await handOver(folder, 'body-3', program);
    await verifiedByCommand(made);
    everyTamperingIsNamed(folder, 'body-3', made);
    if (spawnSync('openssl', ['version']).error !== undefined) context.skip('openssl is not on this machine');
    verifiedByItsText(made, signerBeside(folder)([]).publicKey);
    if (noBrowser) context.skip('no Chromium on this machine');
    await verifiedByItsPage(made, browser);
  }, 240_000);
});
