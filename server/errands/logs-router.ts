/**
 * What the page of logs asks: files are handed in one by one and kept in memory for a while, bounded; then they are read and
 * judged in a thread as often as the person puts something right. Nothing of it comes into the record.
 */
import express, { type Request, type Router } from 'express';
import { z } from 'zod';
import { limits } from '../measure/limits.ts';
import type { Instant } from '../measure/quantity.ts';
import type { LogsAsked } from '../screen/logs-view.ts';
import { problems } from '../weld/problems.ts';
import { readJoint } from '../weld/read-joint.ts';
import { delimiters } from '../wire/csv-records.ts';
import { dateOrders } from '../wire/log-date.ts';
import { decimalMarks } from '../wire/log-numbers.ts';
import { clockForms, elapsedUnits, numberedTimes } from '../wire/log-time.ts';
import { temperatureUnits } from '../wire/log-units.ts';
import type { LogsErrand } from './logs.ts';

export interface LogsDesk {
  view(errand: LogsErrand): Promise<unknown>;
  report(errand: LogsErrand, zone: string): Promise<Uint8Array>;
  /** A name that nobody can guess. */
  newId(): string;
}

export function logsRouter(desk: LogsDesk): Router {
  const router = express.Router();
  const json = express.json({ limit: limits.bodyMaximum });
  const kept = createShelf();

  router.post('/logs', express.raw({ type: () => true, limit: limits.logPageMaximum }), (request, response) => {
    const bytes: unknown = request.body;
    if (!Buffer.isBuffer(bytes) || bytes.length === 0) {
      return void response.status(422).json(refusal('file', 'no bytes', 'a log that is not empty'));
    }
    const id = desk.newId();
    kept.put(id, bytes);
    response.status(201).json({ id });
  });

  router.post('/logs/judge', json, async (request, response) => {
    const errand = errandOf(request, kept);
    if ('problems' in errand) response.status(422).json(errand);
    else response.json(await desk.view(errand));
  });

  router.post('/logs/report.pdf', json, async (request, response) => {
    const errand = errandOf(request, kept);
    if ('problems' in errand) return void response.status(422).json(errand);
    const zone = errand.mapping.zone ?? 'UTC';
    response.type('application/pdf').send(Buffer.from(await desk.report(errand, zone)));
  });
  return router;
}

const saidSchema = z
  .strictObject({
    unit: z.enum(temperatureUnits),
    decimal: z.enum(decimalMarks),
    order: z.enum(dateOrders),
    numbers: z.enum(numberedTimes),
    clock: z.enum(clockForms),
    zone: z.string().max(limits.nameMaximum),
    offsetMinutes: z.int().min(-840).max(840),
    /** Days, as 2026-11-25. */
    day: z.iso.date(),
    start: z.iso.datetime({ offset: true }),
    leaveOutRows: z.boolean(),
    delimiter: z.enum(delimiters),
    sheet: z.string().max(limits.nameMaximum),
    headerLine: z.int().min(1).max(limits.logMaximum),
    timeColumn: z.string().max(limits.textMaximum),
    dateColumn: z.string().max(limits.textMaximum),
    /** Header of a column to the probe that it is; the rest are left out. */
    units: z.record(z.string().max(limits.textMaximum), z.enum(temperatureUnits)),
    timeUnit: z.enum(elapsedUnits),
    columns: z.record(z.string().max(limits.textMaximum), z.string().max(limits.nameMaximum)),
  })
  .partial();

const askedSchema = z.strictObject({
  joint: z.unknown(),
  files: z
    .array(z.strictObject({ id: z.string(), name: z.string().min(1).max(limits.nameMaximum) }))
    .min(1)
    .max(limits.logFilesMaximum),
  said: saidSchema,
  events: z.array(z.string().max(limits.bodyMaximum)).max(2),
});

const refusal = (field: string, found: string, allowed: string) => ({ problems: [{ field, found, allowed }] });

type Refused = ReturnType<typeof refusal> | { readonly problems: readonly unknown[] };

function errandOf(request: Request, kept: Shelf): LogsErrand | Refused {
  const asked = askedSchema.safeParse(request.body as LogsAsked);
  if (!asked.success) return { problems: problems(asked.error, request.body, askedSchema) };
  const { files, said, events } = asked.data;
  const joint = readJoint(asked.data.joint);
  if ('problems' in joint) {
    return { problems: joint.problems.map((each) => ({ ...each, field: `joint.${each.field}` })) };
  }
  const gone = files.find(({ id }) => kept.get(id) === undefined);
  if (gone !== undefined) {
    return refusal('files', gone.name, 'a file that was handed in a short while ago; choose it again');
  }
  const { day, start, ...mapping } = said;
  return {
    joint: joint.joint,
    logs: files.map(({ id, name }) => ({ name, bytes: kept.get(id)! })),
    mapping: {
      ...mapping,
      ...(day === undefined ? {} : { day: Date.parse(`${day}T00:00:00Z`) }),
      ...(start === undefined ? {} : { start: Date.parse(start) as Instant }),
    },
    events,
  };
}

interface Shelf {
  put(id: string, bytes: Uint8Array): void;
  get(id: string): Uint8Array | undefined;
}

/** The oldest makes room: a page that comes back to it is told to hand it in again. */
function createShelf(): Shelf {
  const kept = new Map<string, Uint8Array>();
  const size = (): number => [...kept.values()].reduce((sum, { length }) => sum + length, 0);
  return {
    put(id, bytes) {
      kept.set(id, bytes);
      while (kept.size > 1 && (size() > limits.logShelfMaximum || kept.size > 2 * limits.logFilesMaximum)) {
        kept.delete(kept.keys().next().value as string);
      }
    },
    get: (id) => kept.get(id),
  };
}
