/**
 * How the ports stand, for a person who looks for what is wrong.
 *
 *   GET  /api/links                              -> LinksView
 *   GET  /api/links/lines?port=&after=           -> RawLineView[]   (newest lines both ways, as they came)
 *   POST /api/links/retry {port}                 -> 200 | 404
 *   POST /api/links/capture {port, minutes}      -> 201 {name} | 404 | 422 {problems}
 *   POST /api/links/capture-end {port}           -> 200
 *   GET  /api/captures/:name                     (the file)
 *
 * Nothing here changes a record.
 */
import express, { type Response, type Router } from 'express';
import { z } from 'zod';
import { limits } from '../measure/limits.ts';
import type { LinksView } from '../screen/links-view.ts';
import { problems } from '../weld/problems.ts';
import type { Captures } from './captures.ts';
import type { Heard } from './heard.ts';

export interface LinksDesk {
  view(): LinksView;
  heard(port: string): Heard | undefined;
  /** False where the station does not read that port. */
  retry(port: string): boolean;
  readonly captures: Captures;
}

const portSchema = z.object({ port: z.string().min(1).max(400) });
const captureSchema = portSchema.extend({ minutes: z.number().min(1).max(limits.captureMinutesMaximum) });
const notFound = { because: 'this station hears no line on that port' };

export function linksRouter({ view, heard, retry, captures }: LinksDesk): Router {
  const router = express.Router();
  const json = express.json({ limit: 10_000 });

  router.get('/links', (_request, response) => void response.json(view()));

  router.get('/links/lines', (request, response) => {
    const found = heard(String(request.query.port ?? ''));
    const after = Number(request.query.after ?? 0);
    if (found === undefined) return void response.status(404).json(notFound);
    response.json(found.lines(Number.isSafeInteger(after) ? after : 0));
  });

  router.post('/links/retry', json, (request, response) => {
    const asked = readBody(portSchema, request.body, response);
    if (asked === undefined) return;
    if (retry(asked.port)) response.json({});
    else response.status(404).json(notFound);
  });

  router.post('/links/capture', json, (request, response) => {
    const asked = readBody(captureSchema, request.body, response);
    if (asked === undefined) return;
    const found = heard(asked.port);
    if (found?.bytes === undefined) return void response.status(404).json(notFound);
    response.status(201).json({ name: captures.begin(found.port, found.bytes, asked.minutes) });
  });

  router.post('/links/capture-end', json, (request, response) => {
    const asked = readBody(portSchema, request.body, response);
    if (asked === undefined) return;
    captures.end(heard(asked.port)?.port ?? asked.port);
    response.json({});
  });

  router.get('/captures/:name', (request, response) => {
    const bytes = captures.read(request.params.name);
    if (bytes === undefined) return void response.status(404).json({ because: 'this station keeps no such capture' });
    response
      .type('text/plain')
      .set('Content-Disposition', `attachment; filename="${request.params.name}"`)
      .send(Buffer.from(bytes));
  });
  return router;
}

function readBody<T>(schema: z.ZodType<T>, body: unknown, response: Response): T | undefined {
  const read = schema.safeParse(body);
  if (read.success) return read.data;
  response.status(422).json({ problems: problems(read.error, body, schema) });
  return undefined;
}
