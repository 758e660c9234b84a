/** What a person may do about an alarm, and what is told at the field where it makes no sense. */
import { describe, expect, it } from 'vitest';
import { asJson, type HttpBench, httpBench } from '../../support/http-bench.ts';
import { jointOn } from '../../support/pipeline-bench.ts';

const who = { name: 'Ada', role: 'welder' };
const silent = 'board/b1';

/** A joint that was warm, and whose board fell silent half a minute ago. */
async function withSilentBoard(): Promise<HttpBench> {
  const http = await httpBench();
  await http.post('/api/joints', { who, joint: asJson(jointOn('one', 'b1')) });
  http.bench.hello('b1');
  http.bench.seconds(5, 160);
  http.bench.clock.move(30_000);
  return http;
}

const act = (http: HttpBench, body: object): Promise<Response> => http.post('/api/joints/one/acts', { who, act: body });
const problem = async (answer: Response): Promise<string> => {
  const { problems } = (await answer.json()) as { problems: { field: string; allowed: string }[] };
  return problems.map(({ field, allowed }) => `${field}: ${allowed}`).join('; ');
};
const alarmsOf = (http: HttpBench) => http.bench.pipeline.run('one')!.assessment;

describe('an alarm', () => {
  it('is put aside with name, reason and end, and taken up again', async () => {
    const http = await withSilentBoard();
    const shelved = { kind: 'shelve', alarm: silent, minutes: 30, reason: 'the cable is being changed' };
    expect((await act(http, shelved)).status).toBe(201);
    expect(alarmsOf(http).shelvings).toMatchObject([{ key: silent, by: 'Ada', reason: 'the cable is being changed' }]);
    const [shelving] = alarmsOf(http).shelvings;
    expect(shelving!.until - shelving!.at).toBe(30 * 60_000);
    expect((await act(http, { kind: 'unshelve', alarm: silent })).status).toBe(201);
    expect(alarmsOf(http).shelvings).toEqual([]);
  });

  it('is not put aside without a reason, for no time, or for longer than it is worth', async () => {
    const http = await withSilentBoard();
    const shelve = (minutes: number, reason: string) => act(http, { kind: 'shelve', alarm: silent, minutes, reason });
    expect(await problem(await shelve(10, ' '))).toContain('act.reason');
    expect(await problem(await shelve(0, 'known'))).toContain('act.minutes');
    expect(await problem(await shelve(61, 'known'))).toContain(
      'act.minutes: at most 60 min for an alarm of medium priority',
    );
    expect(alarmsOf(http).shelvings).toEqual([]);
  });

  it('that does not stand, or is not put aside, is told so', async () => {
    const http = await withSilentBoard();
    const gone = { kind: 'shelve', alarm: 'below minimum', minutes: 5, reason: 'known' };
    expect(await problem(await act(http, gone))).toContain('act.alarm: an alarm that stands');
    expect(await problem(await act(http, { kind: 'unshelve', alarm: silent }))).toContain(
      'act.alarm: an alarm that is',
    );
  });

  it('that follows from another cannot be acknowledged, since nobody was told of it', async () => {
    const http = await withSilentBoard();
    expect(alarmsOf(http).alarms.map(({ key, suppressed }) => [key, suppressed])).toContainEqual([
      'probe/b1-1',
      'board silent',
    ]);
    const follows = { kind: 'acknowledge', alarm: 'probe/b1-1' };
    expect(await problem(await act(http, follows))).toContain('an alarm that was announced');
    expect((await act(http, { kind: 'acknowledge', alarm: silent })).status).toBe(201);
  });
});
