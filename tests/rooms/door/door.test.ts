/** The way in: pages of other sites may neither act nor listen, and every failure is answered in words. */
import express from 'express';
import { io } from 'socket.io-client';
import { describe, expect, it, onTestFinished } from 'vitest';
import { isSameOrigin } from '../../../server/door/door.ts';
import { asJson, type HttpBench, httpBench } from '../../support/http-bench.ts';
import { jointOn } from '../../support/pipeline-bench.ts';

const ada = { name: 'Ada' };
const joint = asJson(jointOn('one', 'b1'));

/** Ends connected, or with the reason why not. */
const knock = (http: HttpBench, origin: string | undefined, transport: 'polling' | 'websocket'): Promise<string> => {
  const socket = io(http.address, {
    transports: [transport],
    reconnection: false,
    extraHeaders: origin === undefined ? {} : { origin },
  });
  onTestFinished(() => void socket.close());
  return new Promise((resolve) => {
    socket.on('connect', () => resolve('connected'));
    socket.on('connect_error', () => resolve('refused'));
  });
};

describe('a page of another site', () => {
  it('cannot act', async () => {
    const http = await httpBench();
    for (const origin of ['http://elsewhere.example', 'https://127.0.0.1.elsewhere.example', 'null', 'nonsense']) {
      const answer = await http.post('/api/joints', { who: ada, joint }, { Origin: origin });
      expect(answer.status, origin).toBe(403);
      expect(await answer.json()).toMatchObject({ because: expect.stringContaining('another site') });
    }
    expect(http.bench.record.chains()).toHaveLength(1);
  });

  it('cannot listen, whatever the transport', async () => {
    const http = await httpBench();
    for (const transport of ['polling', 'websocket'] as const) {
      expect(await knock(http, 'http://elsewhere.example', transport)).toBe('refused');
      expect(await knock(http, 'null', transport)).toBe('refused');
      expect(await knock(http, http.address, transport)).toBe('connected');
      expect(await knock(http, undefined, transport)).toBe('connected');
    }
  });

  it('is told by host and port alike', () => {
    expect(isSameOrigin('http://shop:8080', 'shop:8080')).toBe(true);
    expect(isSameOrigin('http://shop:8081', 'shop:8080')).toBe(false);
    expect(isSameOrigin('http://shop', undefined)).toBe(false);
    expect(isSameOrigin(undefined, 'shop:8080')).toBe(true);
  });
});

describe('the door', () => {
  it('lets this site act', async () => {
    const http = await httpBench();
    expect((await http.post('/api/joints', { who: ada, joint }, { Origin: http.address })).status).toBe(201);
  });

  it('answers an address that is not there as JSON below /api, and as the page elsewhere', async () => {
    const http = await httpBench();
    const missing = await http.ask('/api/no/such/thing');
    expect(missing.status).toBe(404);
    expect(await missing.json()).toEqual({ because: 'no such address' });
    const page = await http.ask('/joints/one');
    expect(page.status).toBe(200);
    expect(await page.text()).toContain('<title>page</title>');
    expect(page.headers.get('cache-control')).toBe('no-cache');
  });

  it('lets no other site frame its pages, nor its pages load from elsewhere, and works on plain HTTP', async () => {
    const http = await httpBench();
    const { headers } = await http.ask('/');
    const policy = headers.get('content-security-policy') ?? '';
    expect(policy).toContain("default-src 'self'");
    expect(policy).toMatch(/frame-ancestors 'self'/);
    expect(policy).not.toContain('upgrade-insecure-requests');
    expect(headers.get('strict-transport-security')).toBeNull();
    expect(headers.get('x-powered-by')).toBeNull();
  });

  it('answers a failure that nobody expected with 500 in words, and tells the operator', async () => {
    const router = express.Router();
    router.get('/broken', () => {
      throw new Error('the thread broke off');
    });
    const http = await httpBench([router]);
    const answer = await http.ask('/api/broken');
    expect(answer.status).toBe(500);
    expect(await answer.json()).toEqual({ because: 'the thread broke off' });
    expect(http.failures).toHaveLength(1);
  });
});
