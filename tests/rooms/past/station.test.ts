/** At a station: what is asked over HTTP, and that cards of closed joints come into the record by themselves. */
import { expect, test } from 'vitest';
import { type Outcome, type ReadingErrand, run } from '../../../server/errands/errand.ts';
import { madeBy } from '../../../server/errands/past-cards.ts';
import type { Statistics } from '../../../server/past/statistics.ts';
import type { FoundView } from '../../../server/past/view.ts';
import { keepPastCards } from '../../../server/station/past.ts';
import { httpBench } from '../../support/http-bench.ts';
import { jointOn } from '../../support/pipeline-bench.ts';
import { act, bench, opened, shortJob } from '../../support/record.ts';

const program = { name: 'test', version: '1', rules: 'test' };
const turns = async (count: number): Promise<void> => {
  for (let turn = 0; turn < count; turn += 1) await new Promise((resolve) => setImmediate(resolve));
};

test('cards are kept at the start and after each closing, and nothing is written once the station ends', async () => {
  const made = bench();
  made.store.commit(shortJob('joint-1'));
  const errand = (<E extends ReadingErrand>(asked: E) =>
    run(asked, made.store, program) as Promise<Outcome<E>>) as never;
  const { end, drawAnew } = keepPastCards(made.store, errand);
  const kept = () => made.store.cards(madeBy(program)).map(({ chain }) => chain);
  await turns(5);
  expect(kept()).toEqual(['joint-1']);
  made.store.commit([opened(20, 'joint-2')]);
  await turns(5);
  expect(kept()).toEqual(['joint-1']);
  made.store.commit([act(21, { kind: 'close' }, 'joint-2')]);
  await turns(5);
  expect(kept()).toEqual(['joint-1', 'joint-2']);
  const [card] = made.store.cards(madeBy(program));
  const changed = new TextEncoder().encode(new TextDecoder().decode(card!.bytes).replace('Plain joint', 'Other joint'));
  made.store.keepCards(madeBy(program), [{ ...card!, bytes: changed }]);
  drawAnew(['joint-1']);
  await turns(5);
  expect(made.store.cards(madeBy(program))[0], 'drawn out of its chain again').toEqual(card);
  end();
  made.store.commit([opened(30, 'joint-3'), act(31, { kind: 'close' }, 'joint-3')]);
  await turns(5);
  expect(kept()).toEqual(['joint-1', 'joint-2']);
});

test('the routes find, count, give CSV, and refuse with what is allowed', async () => {
  const http = await httpBench();
  http.bench.hello('b1');
  const opening = http.bench.pipeline.open(jointOn('one', 'b1'), 'Ada');
  http.bench.clock.move(100);
  await opening;
  const json = async <T>(path: string): Promise<T> => (await (await http.ask(path)).json()) as T;
  const found = await json<FoundView>('/api/past?words=ada&zone=Europe/Oslo');
  expect(found).toMatchObject({ found: 1, searched: 1, joints: [{ id: 'one', open: true }] });
  expect((await json<FoundView>('/api/past?words=nobody')).joints).toEqual([]);
  expect((await json<FoundView>('/api/past?offset=1')).found).toBe(1);
  const counted = await json<Statistics>('/api/past/statistics?period=week');
  expect(counted.sources.map(({ joints, open }) => [joints, open])).toEqual([[1, 1]]);
  const csv = await http.ask('/api/past/found.csv?words=ada');
  expect(csv.headers.get('content-type')).toContain('text/csv');
  expect((await csv.text()).split('\r\n')).toHaveLength(3);
  for (const query of ['colour=red', 'verdict=good', 'count=0', 'offset=x']) {
    expect((await http.ask(`/api/past?${query}`)).status, query).toBe(422);
  }
  expect((await http.ask('/api/past/statistics?period=year')).status).toBe(422);
  expect(http.failures).toEqual([]);
});
