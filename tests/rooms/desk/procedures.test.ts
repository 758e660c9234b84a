/** The store of procedures over HTTP: recorded whole, never changed, withdrawn by name; and what a joint may be bound to. */
import { describe, expect, it } from 'vitest';
import { revisionHash } from '../../../server/ledger/procedures.ts';
import { limits } from '../../../server/measure/limits.ts';
import type { Joint } from '../../../server/weld/joint.ts';
import type { KeptRevision } from '../../../server/weld/procedure-act.ts';
import { asBound, type ProcedureRevision, reboundTo } from '../../../server/weld/procedure-revision.ts';
import { asJson, type HttpBench, httpBench } from '../../support/http-bench.ts';
import { group, jointOn } from '../../support/pipeline-bench.ts';

const ben = { name: 'Ben', role: 'coordinator' };
const welder = { name: 'Ada', role: 'welder' };
const revision = (name: string, minimum = 150, more: Partial<ProcedureRevision> = {}): ProcedureRevision => ({
  format: 'preheat procedure 1',
  procedure: { id: 'P-12', revision: name, preheatMinimumCelsius: minimum, decisionRule: 'simple acceptance' },
  ...more,
});
const enter = (http: HttpBench, made: unknown, reason?: string, who: object = ben) =>
  http.post('/api/procedures', { who, revision: made, ...(reason === undefined ? {} : { reason }) });
const withdraw = (http: HttpBench, sha256: string, reason = 'a wrong number') =>
  http.post(`/api/procedures/${sha256}/withdrawal`, { who: ben, reason });
const listed = async (http: HttpBench) => (await (await http.ask('/api/procedures')).json()) as KeptRevision[];
const problemsOf = async (answer: Response) =>
  ((await answer.json()) as { problems: { field: string; found: string; allowed: string }[] }).problems;
const fields = async (answer: Response) => (await problemsOf(answer)).map((each) => each.field);
const bound = (made: ProcedureRevision, id = 'one'): Joint => ({
  ...jointOn(id, 'b1'),
  ...asBound(made, revisionHash(made)),
});
const open = (http: HttpBench, joint: unknown) => http.post('/api/joints', { who: welder, joint: asJson(joint) });

describe('a procedure', () => {
  it('is recorded whole under the hash of its canonical bytes, by whom and when', async () => {
    const http = await httpBench();
    const made = revision('A', 112.5, { postHeating: { celsius: 250, hours: 2 }, codeSet: 'EN 1011-2' });
    expect((await enter(http, made)).status).toBe(201);
    expect(await listed(http)).toEqual([
      { sha256: revisionHash(made), revision: made, at: expect.any(Number), who: 'Ben', role: 'coordinator' },
    ]);
    expect([...http.bench.record.entries('Procedures')]).toMatchObject([{ kind: 'procedure', seq: 1, class: 'input' }]);
  });

  it('is told at its field what is wrong with it', async () => {
    const http = await httpBench();
    const made = revision('A', 260);
    const wrong = { ...made, procedure: { ...made.procedure, interpassMaximumCelsius: 250, preheatMinimum: 5 } };
    expect(await problemsOf(await enter(http, wrong))).toMatchObject([
      { field: 'revision.procedure.preheatMinimum', allowed: expect.stringContaining('"preheatMinimumCelsius"') },
      { field: 'revision.procedure.interpassMaximumCelsius', allowed: expect.stringContaining('at least 260 °C') },
    ]);
    expect(await listed(http)).toEqual([]);
  });

  it('is recorded and withdrawn by those who answer for it only', async () => {
    const http = await httpBench();
    expect(await problemsOf(await enter(http, revision('A'), undefined, welder))).toEqual([
      { field: 'who.role', found: 'the role welder', allowed: 'for recording a procedure: inspector and coordinator' },
    ]);
    await enter(http, revision('A'));
    const sha256 = revisionHash(revision('A'));
    const asked = await http.post(`/api/procedures/${sha256}/withdrawal`, { who: welder, reason: 'wrong' });
    expect(await fields(asked)).toEqual(['who.role']);
    expect((await listed(http))[0]?.withdrawn).toBeUndefined();
  });

  it('is never recorded again under the same name, and another revision wants a reason', async () => {
    const http = await httpBench();
    await enter(http, revision('A'));
    expect(await fields(await enter(http, revision('A', 175), 'warmer'))).toEqual(['revision.procedure.revision']);
    expect(await fields(await enter(http, revision('B', 175)))).toEqual(['reason']);
    const [first, second] = await Promise.all([
      enter(http, revision('B', 175), 'warmer'),
      enter(http, revision('B', 200), 'warmer still'),
    ]);
    expect([first.status, second.status].toSorted()).toEqual([201, 422]);
    expect((await listed(http)).map((each) => [each.revision.procedure.revision, each.reason])).toEqual([
      ['A', undefined],
      ['B', expect.stringContaining('warmer')],
    ]);
  });

  it('outside its own qualified range wants a reason that names what is outside', async () => {
    const http = await httpBench();
    const made = revision('A', 94.9);
    const qualification = { record: 'Q-7', standard: 'ASME IX', preheatCelsius: 150 } as const;
    const outside = { ...made, procedure: { ...made.procedure, qualification } };
    expect(await problemsOf(await enter(http, outside))).toEqual([
      {
        field: 'reason',
        found: 'nothing',
        allowed: 'why it is recorded outside its qualified range: preheat (ASME IX QW-406.1)',
      },
    ]);
    expect((await enter(http, outside, 'supplementary test piece under way')).status).toBe(201);
    const inside = { ...revision('A', 95), procedure: { ...revision('A', 95).procedure, id: 'P-13', qualification } };
    expect((await enter(http, inside)).status).toBe(201);
  });

  it('that is withdrawn stays in the list with who and why, and cannot be withdrawn twice', async () => {
    const http = await httpBench();
    await enter(http, revision('A'));
    const sha256 = revisionHash(revision('A'));
    expect(await fields(await withdraw(http, '0'.repeat(64)))).toEqual(['sha256']);
    expect((await withdraw(http, sha256)).status).toBe(201);
    expect(await listed(http)).toMatchObject([{ sha256, withdrawn: { who: 'Ben', reason: 'a wrong number' } }]);
    expect(await fields(await withdraw(http, sha256))).toEqual(['sha256']);
  });

  it('is known again after a restart, and there is an end to how many', async () => {
    const http = await httpBench();
    await enter(http, revision('A'));
    http.bench.restart();
    const asked = (name: string) =>
      http.bench.pipeline.procedure({ kind: 'procedure', revision: revision(name), reason: 'more' }, { who: 'Ben' });
    const again = asked('A');
    const most = Array.from({ length: limits.procedureRevisionsMaximum - 1 }, (_, n) => asked(`r${n}`));
    const tooMany = asked('one more');
    http.bench.clock.move(group);
    await expect(again).rejects.toThrow('what is recorded is never changed');
    await Promise.all(most);
    await expect(tooMany).rejects.toThrow(`at most ${limits.procedureRevisionsMaximum}`);
  });
});

describe('a joint', () => {
  it('is bound to a recorded revision and carries all of its values', async () => {
    const http = await httpBench();
    const made = revision('A', 150, { postHeating: { celsius: 250, hours: 2 } });
    await enter(http, made);
    expect((await open(http, { ...bound(made), waitingEdition: 'EN 1011-2:2001' })).status).toBe(201);
    const opening = [...http.bench.record.entries('one')][0]!.body as { joint: Joint };
    expect(opening.joint).toMatchObject({
      procedure: made.procedure,
      postHeating: { celsius: 250, hours: 2 },
      waitingEdition: 'EN 1011-2:2001',
      boundRevision: { sha256: revisionHash(made), beside: ['postHeating'] },
    });
  });

  it('is not bound to what was altered, is not kept, or is withdrawn', async () => {
    const http = await httpBench();
    const made = revision('A');
    await enter(http, made);
    const altered = { ...bound(made), procedure: { ...made.procedure, preheatMinimumCelsius: 140 } };
    expect(await problemsOf(await open(http, altered))).toMatchObject([
      { field: 'joint.boundRevision', found: 'values that are not those of the revision' },
    ]);
    const { procedure: _, ...without } = bound(made);
    expect(await fields(await open(http, without))).toEqual(['joint.boundRevision']);
    expect(await fields(await open(http, bound(revision('B'))))).toEqual(['joint.boundRevision']);
    await withdraw(http, revisionHash(made));
    expect(await problemsOf(await open(http, bound(made)))).toMatchObject([
      { field: 'joint.boundRevision', allowed: 'one that is not withdrawn; this one is: a wrong number' },
    ]);
    expect(http.bench.record.chains().map((each) => each.chain)).toEqual(['Procedures', 'station']);
  });

  it('changes over to another revision by an entry with a reason; the old one may be withdrawn meanwhile', async () => {
    const http = await httpBench();
    const first = revision('A', 150, { postHeating: { celsius: 250, hours: 2 } });
    const second = revision('B', 175);
    await enter(http, first);
    await open(http, bound(first));
    await enter(http, second, 'warmer');
    await withdraw(http, revisionHash(first));
    const revise = (joint: Joint, reason: string) =>
      http.post('/api/joints/one/acts', { who: ben, act: { kind: 'revise', joint: asJson(joint), reason } });
    expect((await revise({ ...bound(first), title: 'another title' }, 'title')).status).toBe(201);
    const changed = reboundTo(bound(first), second, revisionHash(second));
    expect(changed.postHeating).toBeUndefined();
    expect((await revise(changed, 'revision B holds')).status).toBe(201);
    expect(http.bench.pipeline.run('one')?.assessment.limits.preheatMinimum).toBe(175_000);
    expect(await fields(await revise(bound(first), 'back again'))).toEqual(['act.joint.boundRevision']);
  });
});
