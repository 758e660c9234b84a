/** OUTLET: what a screen asks for once: joints, one joint, its history, its time line, its papers. */
import express, { type Router } from 'express';
import type { HistoryView } from '../measure/history.ts';
import { limits } from '../measure/limits.ts';
import type { Instant } from '../measure/quantity.ts';
import type { KeptRevision } from '../weld/procedure-act.ts';
import type { AlarmEvent, HeadView, JointState, JointsView, StationView, TimelineEvent } from './contract.ts';
import { zoneOf } from './zone-of.ts';

export interface ViewSource {
  station(): StationView;
  joints(): JointsView;
  isKnown(id: string): boolean;
  joint(id: string): Promise<JointState | undefined>;
  /** From and to default to the whole record. */
  history(id: string, span: { from?: Instant; to?: Instant; points: number }): Promise<HistoryView>;
  timeline(id: string): Promise<readonly TimelineEvent[]>;
  alarms(id: string): Promise<readonly AlarmEvent[]>;
  pdf(id: string, zone: string): Promise<Uint8Array>;
  handOver(id: string, zone: string): Promise<Uint8Array>;
  /** The working page to be signed, or the card to hang on the part; the address leads back to the joint's page. */
  paper(id: string, paper: 'working' | 'card', address: string): Promise<Uint8Array>;
  csv(id: string, of: 'readings' | 'passes', zone: string): Promise<Uint8Array>;
  /** One file that a stranger can verify without this program. */
  package(id: string, zone: string): Promise<Uint8Array>;
  head(id: string): HeadView;
  /** The head as a small file, and a request to have it stamped. */
  headFile(id: string): { readonly name: string; readonly text: string };
  stampRequest(id: string): { readonly name: string; readonly bytes: Uint8Array } | undefined;
  procedures(): readonly KeptRevision[];
  document(sha256: string): { readonly bytes: Uint8Array; readonly mediaType: string } | undefined;
}

export function viewRouter(source: ViewSource): Router {
  const router = express.Router();
  const notFound = { because: 'this station has no joint of that name' };

  router.get('/station', (_request, response) => void response.json(source.station()));
  router.get('/procedures', (_request, response) => void response.json(source.procedures()));
  router.get('/procedures/:sha256/procedure.json', (request, response) => {
    const found = source.procedures().find(({ sha256 }) => sha256 === request.params.sha256);
    if (found === undefined) return void response.status(404).json({ because: 'this station keeps no such revision' });
    response.set('Content-Disposition', 'attachment; filename="procedure.json"').json(found.revision);
  });
  router.get('/joints', (_request, response) => void response.json(source.joints()));

  router.get('/joints/:id', async (request, response) => {
    const state = await source.joint(request.params.id);
    if (state === undefined) response.status(404).json(notFound);
    else response.json(state);
  });

  router.use('/joints/:id', (request, response, next) => {
    if (source.isKnown(request.params.id)) next();
    else response.status(404).json(notFound);
  });

  router.get('/joints/:id/head', (request, response) => void response.json(source.head(request.params.id)));

  router.get('/joints/:id/head.txt', (request, response) => {
    const { name, text } = source.headFile(request.params.id);
    response.type('text/plain').set('Content-Disposition', `attachment; filename="${name}"`).send(text);
  });
  router.get('/joints/:id/stamp-request.tsq', (request, response) => {
    const made = source.stampRequest(request.params.id);
    if (made === undefined) return void response.status(404).json(notFound);
    response
      .type('application/timestamp-query')
      .set('Content-Disposition', `attachment; filename="${made.name}"`)
      .send(Buffer.from(made.bytes));
  });

  router.get('/joints/:id/history', async (request, response) => {
    const from = whole(request.query.from);
    const to = whole(request.query.to);
    const points = whole(request.query.points) ?? limits.historyPointsMaximum;
    if (Number.isNaN(from) || Number.isNaN(to) || Number.isNaN(points) || points < 1) {
      response.status(422).json({
        problems: [
          {
            field: 'from, to, points',
            found: request.originalUrl,
            allowed: 'whole milliseconds since 1970 UTC; points 1 or more',
          },
        ],
      });
      return;
    }
    const span = {
      ...(from === undefined ? {} : { from: from as Instant }),
      ...(to === undefined ? {} : { to: to as Instant }),
      points: Math.min(points, limits.historyPointsMaximum),
    };
    response.json(await source.history(request.params.id, span));
  });

  router.get(
    '/joints/:id/timeline',
    async (request, response) => void response.json(await source.timeline(request.params.id)),
  );

  router.get(
    '/joints/:id/alarms',
    async (request, response) => void response.json(await source.alarms(request.params.id)),
  );

  router.get('/joints/:id/report.pdf', async (request, response) => {
    const pdf = await source.pdf(request.params.id, zoneOf(request.query.zone));
    response
      .type('application/pdf')
      .set('Content-Disposition', `inline; filename="${request.params.id}.pdf"`)
      .send(Buffer.from(pdf));
  });
  router.get('/joints/:id/hand-over.pdf', async (request, response) => {
    const pdf = await source.handOver(request.params.id, zoneOf(request.query.zone));
    response
      .type('application/pdf')
      .set('Content-Disposition', `inline; filename="${request.params.id}-hand-over.pdf"`)
      .send(Buffer.from(pdf));
  });
  for (const paper of ['working', 'card'] as const)
    router.get(`/joints/:id/${paper}.pdf`, async (request, response) => {
      const { id } = request.params;
      // The way that this browser reached the station is a way to reach the joint's page.
      const address = `${request.protocol}://${request.get('host')}/#/joint/${encodeURIComponent(id)}`;
      const pdf = await source.paper(id, paper, address);
      response
        .type('application/pdf')
        .set('Content-Disposition', `inline; filename="${id}-${paper}.pdf"`)
        .send(Buffer.from(pdf));
    });
  for (const table of ['readings', 'passes'] as const)
    router.get(`/joints/:id/${table}.csv`, async (request, response) => {
      const { id } = request.params;
      const csv = await source.csv(id, table, zoneOf(request.query.zone));
      response
        .type('text/csv')
        .set('Content-Disposition', `attachment; filename="${id}${table === 'readings' ? '' : `-${table}`}.csv"`)
        .send(Buffer.from(csv));
    });
  router.get('/joints/:id/package.zip', async (request, response) => {
    const made = await source.package(request.params.id, zoneOf(request.query.zone));
    response
      .type('application/zip')
      .set('Content-Disposition', `attachment; filename="${request.params.id}.zip"`)
      .send(Buffer.from(made));
  });
  router.get('/joints/:id/documents/:sha256', (request, response) => {
    const document = source.document(request.params.sha256);
    if (document === undefined) response.status(404).json({ because: 'no document of that hash is kept' });
    // Never shown as a page: what was uploaded must not run in this site's name.
    else response.type(document.mediaType).set('Content-Disposition', 'attachment').send(Buffer.from(document.bytes));
  });
  return router;
}

/** Undefined where it is not given, NaN where it is not a whole number. */
const whole = (text: unknown): number | undefined =>
  text === undefined ? undefined : typeof text === 'string' && /^\d{1,16}$/.test(text) ? Number(text) : Number.NaN;
