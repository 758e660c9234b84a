/** The head as a file and time stamps over HTTP: asked for, answered, kept while the station runs, and refused in words. */
import { expect, test } from 'vitest';
import { findHead } from '../../../server/ledger/head-text.ts';
import { httpBench } from '../../support/http-bench.ts';
import { plainJoint } from '../../support/plain-joint.ts';
import { stampFor } from '../../support/stamps/authority.ts';

test('a head leaves the house as a file, and a time stamp of it comes in', async () => {
  const http = await httpBench();
  const { record } = http.bench;
  await http.post('/api/joints', { who: { name: 'Ada' }, joint: plainJoint({ id: 'one' }) });
  const file = await http.ask('/api/joints/one/head.txt');
  const { seq, hash } = record.head('one');
  expect(file.headers.get('content-disposition')).toBe(`attachment; filename="one-${seq}.head.txt"`);
  expect(findHead(await file.text())).toEqual({ chain: 'one', seq, hash });

  const asked = await http.ask('/api/joints/one/stamp-request.tsq');
  expect(asked.headers.get('content-type')).toContain('application/timestamp-query');
  expect(asked.headers.get('content-disposition')).toBe(`attachment; filename="one-${seq}.tsq"`);
  const request = new Uint8Array(await asked.arrayBuffer());
  const base64 = (bytes: Uint8Array): string => Buffer.from(bytes).toString('base64');
  const hand = async (answer: Uint8Array, joint = 'one'): Promise<readonly [number, string]> => {
    const response = await http.post(`/api/joints/${joint}/stamps`, {
      request: base64(request),
      answer: base64(answer),
    });
    return [response.status, await response.text()];
  };
  expect(await hand(stampFor(request, { nonce: '05' }))).toEqual([
    422,
    expect.stringContaining('answers another request'),
  ]);
  expect(await hand(new Uint8Array(200_000))).toEqual([422, expect.stringContaining('answer')]);
  expect((await hand(stampFor(request), 'two'))[0]).toBe(404);
  http.bench.refuse = 'The disk is full.';
  expect(await hand(stampFor(request))).toEqual([503, expect.stringContaining('The disk is full.')]);
  http.bench.refuse = undefined;
  expect(record.head('one').seq).toBe(seq);
  expect(await hand(stampFor(request))).toEqual([
    201,
    expect.stringContaining(`entry ${seq} was there at 2026-03-02 07:00:00`),
  ]);
  expect(record.head('one').seq).toBe(seq + 1);
  expect(http.failures).toEqual([]);
});
