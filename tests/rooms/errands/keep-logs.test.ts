/** Logs that are kept become a record like any other, over HTTP as the page asks: named, signed, closed, marked, judged to the same. */
import { describe, expect, it } from 'vitest';
import { verifyText } from '../../../server/commands/verify-text.ts';
import { run as runErrand } from '../../../server/errands/errand.ts';
import { logsRouter } from '../../../server/errands/logs-router.ts';
import type { Assessment, Finding } from '../../../server/judgement/assessment.ts';
import { judgeAll } from '../../../server/judgement/judge.ts';
import { deviationsOf } from '../../../server/judgement/people/deviations.ts';
import { sha256Hex } from '../../../server/ledger/hash.ts';
import { inspectRecord } from '../../../server/record/inspection.ts';
import { gather, ofRecord } from '../../../server/report/gather.ts';
import { modelText } from '../../../server/report/page-model.ts';
import { pages } from '../../../server/report/pages.ts';
import type { TimelineEvent } from '../../../server/screen/contract.ts';
import { keepJob } from '../../../server/station/keep-job.ts';
import type { DispositionAct } from '../../../server/weld/entry.ts';
import type { Joint } from '../../../server/weld/joint.ts';
import { instantText } from '../../../server/wording/time.ts';
import { dispositionOf } from '../../../web/pages/joint/decision.ts';
import { asJson, httpBench } from '../../support/http-bench.ts';
import { jointOn, pipelineBench } from '../../support/pipeline-bench.ts';

const program = { name: 'test', version: '1', rules: 'test' };
/** Two probes, a row in ten seconds, all at 180 °C from the first on. */
const rows = (count: number): string =>
  Array.from(
    { length: count },
    (_, index) =>
      `2026-03-02 05:${String(Math.floor(index / 6)).padStart(2, '0')}:${String((index % 6) * 10).padStart(2, '0')};180;18${index % 10}`,
  ).join('\n');
const log = `Logger 4711\nTime;L-1 (°C);L-2 (°C)\n${rows(240)}\n`;
const events = [
  'time,kind,place,who,pass,pass kind',
  '2026-03-02 05:00:00,heat on,,K. Heater,,',
  '2026-03-02 05:20:00,heat off,,K. Heater,,',
  '2026-03-02 05:22:00,pass start,A,W. Welder,1,root',
  '2026-03-02 05:24:00,pass end,A,W. Welder,1,',
].join('\n');

interface Told {
  readonly joint: string;
  readonly verdict: string;
  readonly assessment: { readonly verdict: string };
  readonly remarks: readonly { readonly message: string }[];
  readonly problems: readonly unknown[];
}

async function page() {
  const bench = pipelineBench();
  let next = 0;
  const router = logsRouter({
    view: (errand) => runErrand({ kind: 'logs', ...errand }, bench.record, program),
    report: (errand, zone) => runErrand({ kind: 'report of logs', zone, ...errand }, bench.record, program) as never,
    newId: () => `file-${next++}`,
    isTaken: (id) => bench.record.chains().some(({ chain }) => chain === id),
    async keep(errand, keeper) {
      const job = await runErrand({ kind: 'keep logs', keeper, ...errand }, bench.record, program);
      return keepJob(bench.record, job as never, bench.pipeline, keeper);
    },
  });
  const http = await httpBench([router], bench);
  const post = async (path: string, body: unknown) => {
    const answer = await http.post(`/api${path}`, body);
    return { status: answer.status, body: (await answer.json()) as Told };
  };
  const handIn = async (text: string): Promise<string> => {
    const answer = await http.ask('/api/logs', { method: 'POST', body: text });
    return ((await answer.json()) as { id: string }).id;
  };
  return { bench, http, post, handIn };
}

const joint: Joint = jointOn('frame-7', 'L');
const who = { name: 'Runa Teld', role: 'inspector' };
const asked = (id: string, said: object = { zone: 'UTC' }) => ({
  joint: asJson(joint),
  files: [{ id, name: 'furnace.csv' }],
  said,
  events: [{ name: 'events.csv', text: events }],
});

/** The second place is at 140 of 150 °C while the arc burns, and to the end. */
const cold = log.replace(/;180;18\d/g, ';180;120');

describe('deviations of a log', () => {
  it('are decided on by whoever keeps it, before it is closed; the report says by whom, why, and when it was written', async () => {
    const { bench, post, handIn } = await page();
    const id = await handIn(cold);
    const { assessment } = (await post('/logs/judge', asked(id))).body as unknown as { assessment: Assessment };
    const open = deviationsOf(assessment.findings).open;
    expect(open.map(({ kind }) => kind)).toContain('below minimum at pass start');
    const decide = (of: Finding, changes: Partial<DispositionAct> = {}) => ({
      ...dispositionOf(of, 'accept', 'UT after 48 h without indication'),
      ...changes,
    });
    const [first, ...others] = open;
    const keep = (decisions: readonly unknown[], by: object = who) =>
      post('/logs/keep', { ...asked(id), id: 'frame-7', who: by, decisions });

    // What does not fit what was judged is not kept, and said.
    const wrong = await Promise.all([
      keep([decide(first!, { finding: 'no such/1' })]),
      keep([decide(first!, { value: 1 })]),
      keep([decide(first!, { reason: '' })]),
      keep([decide(first!)], { name: 'Runa Teld' }),
    ]);
    expect(wrong.map(({ status }) => status)).toEqual([422, 422, 422, 422]);
    expect(wrong.map(({ body }) => JSON.stringify(body.problems))).toEqual([
      expect.stringContaining('a finding that stands; this one does not'),
      expect.stringContaining('look at it again'),
      expect.stringContaining('decisions.0.reason'),
      expect.stringContaining('for deciding on a deviation'),
    ]);
    expect(bench.record.chains().some(({ chain }) => chain === 'frame-7')).toBe(false);

    expect((await keep([decide(first!)])).status).toBe(201);
    const judged = judgeAll(bench.record.inputs('frame-7')).assessment;
    expect([judged.phase, judged.verdict]).toEqual(['closed', assessment.verdict]);
    const now = deviationsOf(judged.findings);
    expect(now.accepted.map(({ key }) => key)).toEqual([first!.key]);
    expect(now.open.map(({ key }) => key).sort()).toEqual(others.map(({ key }) => key).sort());
    const facts = gather({ ...ofRecord(bench.record, 'frame-7'), program, rules: 'test', zone: 'UTC' });
    const text = modelText(pages(facts));
    const written = instantText(bench.pipeline.now(), 'UTC');
    expect(text).toContain(`Accepted by Runa Teld, inspector, ${written}. Reason: UT after 48 h without indication`);
    expect(inspectRecord(bench.folder, { rejudge: (inputs) => judgeAll(inputs).assessment }).verdictDiffers).toBe(
      false,
    );
  });

  it('that last to the end of the log can be decided on: it grows no more', async () => {
    const { bench, post, handIn } = await page();
    const id = await handIn(cold);
    const running = { ...asked(id), events: [{ name: 'e.csv', text: events.replace(/\n[^\n]*pass end.*/, '') }] };
    const { assessment } = (await post('/logs/judge', running)).body as unknown as { assessment: Assessment };
    const lasting = deviationsOf(assessment.findings).open.filter(({ to }) => to === undefined);
    expect(lasting.length).toBeGreaterThan(0);
    const decisions = lasting.map((each) => dispositionOf(each, 'repair', 'gouged out and welded anew'));
    expect((await post('/logs/keep', { ...running, id: 'frame-7', who, decisions })).status).toBe(201);
    const { findings } = judgeAll(bench.record.inputs('frame-7')).assessment;
    expect(
      deviationsOf(findings)
        .repair.map(({ key }) => key)
        .sort(),
    ).toEqual(lasting.map(({ key }) => key).sort());
  });
});

describe('logs that are kept', () => {
  it('are a joint like any other, and say first and everywhere that they were imported', async () => {
    const { bench, http, post, handIn } = await page();
    const id = await handIn(log);
    const shown = await post('/logs/judge', asked(id));
    expect(shown.body.problems).toEqual([]);
    const kept = await post('/logs/keep', { ...asked(id), id: 'frame-7', who });
    expect([kept.status, kept.body]).toEqual([201, { joint: 'frame-7', verdict: shown.body.assessment.verdict }]);

    // The overview, the joint and its papers have it without a word of where it came from being lost.
    const list = async (): Promise<unknown> => (await http.ask('/api/joints')).json();
    expect(await list()).toEqual({ open: [] });
    expect(await list()).toMatchObject({ open: [], closed: [{ id: 'frame-7', source: 'imported', open: false }] });
    const timeline = (await (await http.ask('/api/joints/frame-7/timeline')).json()) as TimelineEvent[];
    expect(timeline.map(({ kind }) => kind)).toEqual([
      'opened',
      ...['imported file', 'imported file'],
      ...['heat', 'heat', 'pass start', 'pass end', 'close'],
    ]);
    expect(timeline[3]).toMatchObject({ who: 'K. Heater', at: Date.parse('2026-03-02T05:00:00Z') });
    // Each was written now, by whoever kept it.
    expect(timeline.map(({ kept: written }) => [written?.at, written?.who, written?.proof])).toEqual(
      timeline.map(() => [bench.pipeline.now(), 'Runa Teld', 'typed name']),
    );
    const csv = await (await http.ask('/api/joints/frame-7/readings.csv?zone=UTC')).text();
    expect(csv.trim().split('\n')).toHaveLength(1 + 2 * 240);
    expect(csv.match(/^imported,page of logs,frame-7,UTC,/gm)).toHaveLength(2 * 240);

    // Judged again from the record alone it is the same; nobody can go on with it.
    expect(judgeAll(bench.record.inputs('frame-7')).assessment.verdict).toBe(kept.body.verdict);
    const more = await post('/joints/frame-7/acts', { who, act: { kind: 'heat', state: 'on' } });
    expect(more.status).toBe(404);
    expect(http.failures).toEqual([]);
  });

  it('keep what the files were, how they were read and which lines were passed over; verify names the source first', async () => {
    const { bench, post, handIn } = await page();
    await post('/logs/keep', { ...asked(await handIn(log)), id: 'frame-7', who });
    const [ofLog, ofEvents] = bench.record.importedFiles().map(({ file }) => file);
    const bytes = new TextEncoder().encode(log);
    expect(ofLog).toMatchObject({
      of: 'log',
      name: 'furnace.csv',
      bytes: bytes.length,
      sha256: sha256Hex(bytes),
      rows: 240,
      read: { headerLine: 2, delimiter: ';', zone: 'UTC', said: ['time zone'] },
      passedOver: [{ line: 1, message: 'above the header: Logger 4711' }],
    });
    expect(ofEvents).toMatchObject({
      of: 'events',
      name: 'events.csv',
      sha256: sha256Hex(new TextEncoder().encode(events)),
    });
    const seen = inspectRecord(bench.folder, { rejudge: (inputs) => judgeAll(inputs).assessment });
    expect(seen.ok).toBe(true);
    const chain = seen.chains.find((each) => each.chain === 'frame-7')!;
    expect(chain).toMatchObject({ scans: 240, verdictDiffers: false, stepsBack: 0 });
    expect(chain.recordedVerdict).toBe(chain.rejudgedVerdict);
    expect(verifyText('x', seen)).toMatch(/frame-7: intact.*\n.*head.*\n(.*\n)? *IMPORTED/);
  });

  it('are told of when they are kept already, and want another name', async () => {
    const { bench, post, handIn } = await page();
    const id = await handIn(log);
    expect((await post('/logs/keep', { ...asked(id), id: 'frame-7', who })).status).toBe(201);
    const again = await post('/logs/judge', asked(id));
    expect(again.body.remarks.map(({ message }) => message)).toEqual([
      expect.stringMatching(/^furnace.csv is kept already: joint frame-7, since \d{4}-/),
    ]);
    const same = await post('/logs/keep', { ...asked(id), id: 'frame-7', who });
    expect(same.body.problems[0]).toMatchObject({ field: 'id', found: 'frame-7' });
    expect((await post('/logs/keep', { ...asked(id), id: 'frame-7-again', who })).status).toBe(201);
    expect(bench.record.importedFiles().map(({ chain }) => chain)).toContain('frame-7-again');
  });

  it('are refused with what to do first: who, in which part, under which name, and what is still asked', async () => {
    const { bench, post, handIn } = await page();
    const id = await handIn(log);
    const refusal = async (change: object) => {
      const answer = await post('/logs/keep', { ...asked(id), id: 'frame-7', who, ...change });
      return [answer.status, answer.body.problems?.[0]];
    };
    expect(await refusal({ who: { name: 'W. Welder', role: 'welder' } })).toMatchObject([422, { field: 'who.role' }]);
    expect(await refusal({ who: undefined })).toMatchObject([422, { field: 'who' }]);
    expect(await refusal({ id: 'Frame 7!' })).toMatchObject([422, { field: 'joint.id' }]);
    expect(await refusal({ said: {} })).toMatchObject([
      422,
      { field: 'files', found: expect.stringMatching(/offset from UTC/) },
    ]);
    expect(bench.record.chains().some(({ chain }) => chain === 'frame-7')).toBe(false);
  });
});
