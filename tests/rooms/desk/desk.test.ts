/** What a person asks for over HTTP: told at the field what is wrong, recorded once, and answered only when recorded. */
import { describe, expect, it } from 'vitest';
import { limits } from '../../../server/measure/limits.ts';
import { asJson, type HttpBench, httpBench } from '../../support/http-bench.ts';
import { group, jointOn } from '../../support/pipeline-bench.ts';
import { at } from '../../support/record.ts';

const ada = { name: 'Ada', role: 'welder' };
const open = (http: HttpBench, id = 'one') => http.post('/api/joints', { who: ada, joint: asJson(jointOn(id, 'b1')) });
const ben = { name: 'Ben', role: 'coordinator' };
const act = (http: HttpBench, body: object, headers = {}, joint = 'one', who: object = ada) =>
  http.post(`/api/joints/${joint}/acts`, { who, act: body }, headers);
const close = (http: HttpBench, joint = 'one') => act(http, { kind: 'close' }, {}, joint, ben);
const fields = async (answer: Response): Promise<string[]> =>
  ((await answer.json()) as { problems: { field: string }[] }).problems.map((each) => each.field);
const notes = (http: HttpBench) => [...http.bench.record.entries('one')].filter((entry) => entry.kind === 'note');

describe('entering a joint', () => {
  it('answers 201 with its name once its opening is recorded', async () => {
    const http = await httpBench();
    const answer = await open(http);
    expect(answer.status).toBe(201);
    expect(await answer.json()).toEqual({ joint: 'one' });
    expect([...http.bench.record.entries('one')][0]).toMatchObject({ kind: 'opened', body: { openedBy: 'Ada' } });
  });

  it('names every field that is wrong, with what was found and what is allowed', async () => {
    const http = await httpBench();
    const joint = asJson(jointOn('one', 'b1')) as unknown as Record<string, unknown>;
    const part = (joint.parts as Record<string, unknown>[])[0]!;
    const answer = await http.post('/api/joints', {
      who: { role: 'welder' },
      joint: { ...joint, process: 12, parts: [{ ...part, thicknessMillimetres: -1 }] },
    });
    expect(answer.status).toBe(422);
    const { problems } = (await answer.json()) as { problems: { field: string; found: string; allowed: string }[] };
    expect(problems.map((each) => each.field)).toEqual(
      expect.arrayContaining(['who.name', 'joint.process', 'joint.parts.0.thicknessMillimetres']),
    );
    for (const { found, allowed } of problems) expect(found !== '' && allowed !== '').toBe(true);
    expect(http.bench.record.chains().map((each) => each.chain)).toEqual(['station']);
  });

  it('refuses a name that is taken, also by a closed joint, by the station, or by another tablet just now', async () => {
    const http = await httpBench();
    const [first, second] = await Promise.all([open(http), open(http)]);
    expect([first.status, second.status].toSorted()).toEqual([201, 422]);
    expect(await fields(first.status === 422 ? first : second)).toEqual(['joint.id']);
    await close(http);
    expect(await fields(await open(http))).toEqual(['joint.id']);
    expect((await open(http, 'station')).status).toBe(422);
    expect([...http.bench.record.entries('one')].filter((entry) => entry.kind === 'opened')).toHaveLength(1);
  });

  it('refuses more open joints than the station can hold', async () => {
    const http = await httpBench();
    const opening = Array.from({ length: limits.openJointsMaximum }, (_, n) =>
      http.bench.pipeline.open(jointOn(`joint-${n}`), 'Ada'),
    );
    http.bench.clock.move(group);
    await Promise.all(opening);
    expect(await fields(await open(http))).toEqual(['joint']);
    await close(http, 'joint-0');
    expect((await open(http)).status).toBe(201);
  });

  it('says which preheat a joint needs as one types, and keeps nothing', async () => {
    const http = await httpBench();
    const answer = await http.post('/api/requirement', { joint: asJson(jointOn('one', 'b1')) });
    expect(answer.status).toBe(200);
    expect(await answer.json()).toMatchObject({ governing: { preheatMinimumCelsius: 150 } });
    expect((await http.post('/api/requirement', { joint: {} })).status).toBe(422);
    expect((await http.post('/api/requirement', {})).status).toBe(422);
    expect(http.bench.record.chains()).toHaveLength(1);
  });
});

describe('an act', () => {
  it('is answered with its position in the record', async () => {
    const http = await httpBench();
    await open(http);
    const answer = await act(http, { kind: 'heat', state: 'on' });
    expect(answer.status).toBe(201);
    const { position } = (await answer.json()) as { position: number };
    expect(http.bench.record.after(position - 1, { limit: 1 })[0]).toMatchObject({
      kind: 'heat',
      who: 'Ada',
      role: 'welder',
    });
  });

  it('on a joint that nobody entered is answered 404', async () => {
    const http = await httpBench();
    expect((await act(http, { kind: 'heat', state: 'on' })).status).toBe(404);
  });

  it('that is wrong, or makes no sense now, is told at its field and not recorded', async () => {
    const http = await httpBench();
    await open(http);
    const before = http.bench.record.position();
    const now = at(0);
    expect(await fields(await http.post('/api/joints/one/acts', { act: { kind: 'heat', state: 'on' } }))).toEqual([
      'who',
    ]);
    expect(await fields(await act(http, { kind: 'heat', state: 'warm' }))).toEqual(['act.state']);
    const touch = { probe: 'b1-1', way: 'warmed', from: now, until: now + 9000, readings: [] };
    const check = { kind: 'ambient check', airCelsius: 20, rest: [{ probe: 'b1-1', celsius: 20 }], touches: [touch] };
    const refused: [object, string][] = [
      [{ kind: 'heat', state: 'on', happenedAt: now + 3_600_000 }, 'act.happenedAt'],
      [{ kind: 'heat', state: 'on', happenedAt: now - 25 * 3_600_000 }, 'act.happenedAt'],
      [{ kind: 'heat', state: 'on', happenedAt: now - 3_600_000 }, 'act.happenedAt'],
      [{ kind: 'pass end', pass: '1' }, 'act.pass'],
      [{ kind: 'acknowledge', alarm: 'no such alarm' }, 'act.alarm'],
      [{ kind: 'distrust probe', probe: 'no such probe', reason: 'off' }, 'act.probe'],
      [{ kind: 'trust probe again', probe: 'b1-1', reason: 'nobody distrusts it' }, 'act.probe'],
      [{ kind: 'spare takes over', spare: 'no spare here', probe: 'b1-1', reason: 'off' }, 'act.spare'],
      [{ ...check, rest: [{ probe: 'no such probe', celsius: 20 }] }, 'act.rest.0.probe'],
      [{ ...check, rest: [...check.rest, ...check.rest] }, 'act.rest'],
      [{ ...check, touches: [{ ...touch, probe: 'b1-2' }] }, 'act.touches'],
      [{ ...check, touches: [{ ...touch, probe: 'no such probe' }] }, 'act.touches.0.probe'],
      [{ ...check, touches: Array.from({ length: 257 }, () => touch) }, 'act.touches'],
    ];
    for (const [body, field] of refused) {
      const answer = await act(http, body, {}, 'one', ben);
      expect(answer.status).toBe(422);
      expect(await fields(answer)).toEqual([field]);
    }
    expect(http.bench.record.position()).toBe(before);
  });

  it('that the role of its writer may not make is refused, and it says who may; without a role it stands as typed', async () => {
    const http = await httpBench();
    const entering = { who: { name: 'Vi', role: 'viewer' }, joint: asJson(jointOn('one', 'b1')) };
    expect(await fields(await http.post('/api/joints', entering))).toEqual(['who.role']);
    await open(http);
    const before = http.bench.record.position();
    const answer = await act(http, { kind: 'close' });
    expect(answer.status).toBe(422);
    expect(await answer.json()).toEqual({
      problems: [
        { field: 'who.role', found: 'the role welder', allowed: 'for closing a joint: inspector and coordinator' },
      ],
    });
    expect(http.bench.record.position()).toBe(before);
    expect((await act(http, { kind: 'close' }, {}, 'one', { name: 'Ada' })).status).toBe(201);
  });

  it('that decides on a deviation asks for a role, a finding that is over, and the number that it has', async () => {
    const http = await httpBench();
    await open(http);
    await act(http, { kind: 'pass start', pass: '1', passKind: 'root', welder: 'Ada' });
    const { findings } = http.bench.pipeline.run('one')!.assessment;
    const finding = findings.find(({ kind, to }) => kind === 'minimum not judged' && to !== undefined)!;
    const decision = { kind: 'disposition', finding: finding.key, decision: 'reject', reason: 'nobody measured' };
    const refused: [object, object, string][] = [
      [decision, { name: 'Ben' }, 'who.role'],
      [decision, ada, 'who.role'],
      [{ ...decision, finding: 'no such finding' }, ben, 'act.finding'],
      [{ ...decision, value: 148_000 }, ben, 'act.value'],
    ];
    for (const [body, who, field] of refused)
      expect(await fields(await act(http, body, {}, 'one', who))).toEqual([field]);
    expect((await act(http, decision, {}, 'one', ben)).status).toBe(201);
    const decided = [...http.bench.record.conclusions('one')]
      .map(({ body }) => body as { change?: string; finding?: object })
      .filter(({ change }) => change === 'decided');
    expect(decided).toHaveLength(1);
    expect(decided[0]!.finding).toMatchObject({
      key: finding.key,
      disposition: { decision: 'reject', by: 'Ben', role: 'coordinator', reason: 'nobody measured' },
    });
  });

  it('after the closing is refused, also where both came at once', async () => {
    const http = await httpBench();
    await open(http);
    const [closed, late] = await Promise.all([close(http), act(http, { kind: 'note', text: 'late' })]);
    const later = await act(http, { kind: 'note', text: 'later' });
    expect(closed.status).toBe(201);
    // Which of the two arrives first is the network's choice; after the closing nothing is recorded.
    expect([201, 422]).toContain(late.status);
    expect(later.status).toBe(422);
    expect([...http.bench.record.inputs('one')].at(-1)).toMatchObject({ act: { kind: 'close' } });
  });

  it('too large, or no JSON, is answered in words', async () => {
    const http = await httpBench();
    await open(http);
    const large = await act(http, { kind: 'note', text: 'x'.repeat(limits.bodyMaximum) });
    expect(large.status).toBe(413);
    expect(((await large.json()) as { because: string }).because).toContain('too large');
    const broken = await http.ask('/api/joints/one/acts', {
      method: 'POST',
      headers: { 'Content-Type': 'application/json' },
      body: '{"who":',
    });
    expect(broken.status).toBe(400);
    expect(http.failures).toEqual([]);
  });
});

describe('an act sent twice with one key', () => {
  const key = { 'Idempotency-Key': 'a-key' };

  it('is recorded once and answered the same', async () => {
    const http = await httpBench();
    await open(http);
    const note = { kind: 'note', text: 'wind from the door' };
    const first = await (await act(http, note, key)).json();
    const second = await act(http, note, key);
    expect(second.status).toBe(201);
    expect(await second.json()).toEqual(first);
    expect(notes(http)).toHaveLength(1);
    await act(http, note, { 'Idempotency-Key': 'another key' });
    expect(notes(http)).toHaveLength(2);
  });

  it('at the same moment is recorded once', async () => {
    const http = await httpBench();
    await open(http);
    const note = { kind: 'note', text: 'pressed twice' };
    const answers = await Promise.all([act(http, note, key), act(http, note, key)]);
    expect(answers.map((each) => each.status)).toEqual([201, 201]);
    expect(notes(http)).toHaveLength(1);
  });

  it('may be corrected where it was refused', async () => {
    const http = await httpBench();
    await open(http);
    expect((await act(http, { kind: 'note', text: '' }, key)).status).toBe(422);
    expect((await act(http, { kind: 'note', text: 'now with words' }, key)).status).toBe(201);
  });

  it('while nothing can be recorded: 503 for what is kept and for what is not; each is there once in the end', async () => {
    const http = await httpBench();
    await open(http);
    http.bench.refuse = 'disk I/O error.';
    const kept = { kind: 'note', text: 'kept' };
    const lost = { kind: 'note', text: 'not taken in' };
    const first = await act(http, kept, key);
    expect(first.status).toBe(503);
    expect(((await first.json()) as { because: string }).because).toMatch(/disk I\/O error.*kept here meanwhile/);
    const second = await act(http, lost, { 'Idempotency-Key': 'other' });
    expect(second.status).toBe(503);
    expect(((await second.json()) as { because: string }).because).toBe('disk I/O error.');
    expect((await act(http, kept, key)).status).toBe(503);

    http.bench.refuse = undefined;
    http.bench.clock.move(1000);
    const again = await act(http, kept, key);
    expect(again.status).toBe(201);
    const { position } = (await again.json()) as { position: number };
    expect(http.bench.record.after(position - 1, { limit: 1 })[0]).toMatchObject({ body: { text: 'kept' } });
    expect((await act(http, lost, { 'Idempotency-Key': 'other' })).status).toBe(201);
    expect(notes(http).map((entry) => (entry.body as { text: string }).text)).toEqual(['kept', 'not taken in']);
  });
});

describe('a document', () => {
  const upload = (http: HttpBench, body: BodyInit, type = 'image/png') =>
    http.ask('/api/joints/one/documents', { method: 'POST', headers: { 'Content-Type': type }, body });

  it('comes back as the very bytes, as an attachment that no browser runs', async () => {
    const http = await httpBench();
    await open(http);
    const bytes = Uint8Array.from({ length: 5000 }, (_, index) => (index * 7) % 256);
    const kept = await upload(http, bytes, 'text/html');
    expect(kept.status).toBe(201);
    const { sha256 } = (await kept.json()) as { sha256: string };
    const back = await http.ask(`/api/joints/one/documents/${sha256}`);
    expect(new Uint8Array(await back.arrayBuffer())).toEqual(bytes);
    expect(back.headers.get('content-disposition')).toMatch(/^attachment/);
    expect(back.headers.get('x-content-type-options')).toBe('nosniff');
    expect(await (await upload(http, bytes)).json()).toMatchObject({ sha256 });
  });

  it('empty, too large, or of an unknown joint or hash, is refused', async () => {
    const http = await httpBench();
    await open(http);
    expect((await upload(http, '')).status).toBe(422);
    expect((await upload(http, new Uint8Array(limits.documentMaximum + 1))).status).toBe(413);
    expect((await http.ask(`/api/joints/one/documents/${'0'.repeat(64)}`)).status).toBe(404);
    expect((await http.ask('/api/joints/two/documents', { method: 'POST', body: 'x' })).status).toBe(404);
  });

  it('while the disk fails is refused in words, and so is a media type without end', async () => {
    const http = await httpBench();
    await open(http);
    const long = await upload(http, 'x', `image/${'x'.repeat(limits.nameMaximum)}`);
    expect(long.status).toBe(422);
    expect(await fields(long)).toEqual(['Content-Type']);
    expect((await upload(http, 'x', 'text/plain; charset=UTF-8')).status).toBe(201);
    http.bench.refuse = 'The disk is full: make room on it.';
    const full = await upload(http, 'y');
    expect(full.status).toBe(503);
    expect(await full.json()).toEqual({ because: 'The disk is full: make room on it.' });
    expect(http.failures).toEqual([]);
  });
});
