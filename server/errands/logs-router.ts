/**
 * What the page of logs asks: files are handed in one by one and kept in memory for a while, bounded; then they are read and
 * judged in a thread as often as the person puts something right. It comes into the record only where somebody keeps it.
 */
import express, { type Router } from 'express';
import { z } from 'zod';
import { type ActorOf, bodyBy, establishedBy, takenAsNamed } from '../desk/actor.ts';
import { answeredOnce, mustSignOn, refused, within } from '../desk/answer.ts';
import { dutyProblems } from '../desk/duty.ts';
import { NotRecording, Refusal } from '../desk/refusal.ts';
import { limits } from '../measure/limits.ts';
import type { Instant } from '../measure/quantity.ts';
import type { LogsKept } from '../screen/logs-view.ts';
import { dispositionSchema } from '../weld/entry.ts';
import { personSchema } from '../weld/person.ts';
import { type Problem, problems } from '../weld/problems.ts';
import { readJoint } from '../weld/read-joint.ts';
import { type Signed, signedBy } from '../weld/signed.ts';
import { delimiters } from '../wire/csv-records.ts';
import { dateOrders } from '../wire/log-date.ts';
import { decimalMarks } from '../wire/log-numbers.ts';
import { clockForms, elapsedUnits, numberedTimes } from '../wire/log-time.ts';
import { temperatureUnits } from '../wire/log-units.ts';
import type { LogSaid, LogsErrand } from './logs.ts';

export interface LogsDesk {
  view(errand: LogsErrand): Promise<unknown>;
  report(errand: LogsErrand, zone: string): Promise<Uint8Array>;
  /** Rejects with NotRecording, or with Refusal where something has to be put right first. */
  keep(errand: LogsErrand, keeper: Signed): Promise<{ readonly joint: string; readonly verdict: string }>;
  isTaken(id: string): boolean;
  readonly actor?: ActorOf;
  /** A name that nobody can guess. */
  newId(): string;
}

export function logsRouter(desk: LogsDesk): Router {
  const router = express.Router();
  const json = express.json({ limit: limits.bodyMaximum });
  const kept = createShelf();
  const once = answeredOnce();

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
    const errand = errandOf(request.body, kept);
    if ('problems' in errand) response.status(422).json(errand);
    else response.json(await desk.view(errand));
  });

  router.post('/logs/report.pdf', json, async (request, response) => {
    const errand = errandOf(request.body, kept);
    if ('problems' in errand) return void response.status(422).json(errand);
    const zone = errand.mapping.zone ?? 'UTC';
    response.type('application/pdf').send(Buffer.from(await desk.report(errand, zone)));
  });

  router.post('/logs/keep', json, (request, response) =>
    once(request, response, async () => {
      const actor = (desk.actor ?? takenAsNamed)(request);
      if (actor === 'nobody') return mustSignOn;
      const { who: sent, id, ...asked } = bodyBy(actor, request.body, 'import') as Partial<LogsKept>;
      const who = personSchema.safeParse(sent);
      const errand = errandOf({ ...asked, joint: named(asked.joint, id) }, kept);
      const found = [
        ...(who.success ? dutyProblems('import', who.data) : within('who', problems(who.error, sent, personSchema))),
        ...('problems' in errand ? errand.problems : takenProblems(errand.joint.id, desk)),
        ...(who.success && hasDecisions(errand) ? dutyProblems('disposition', who.data) : []),
      ];
      if (!who.success || 'problems' in errand || found.length > 0) return refused(found);
      try {
        return { status: 201, body: await desk.keep(errand, signedBy(who.data, establishedBy(actor))) };
      } catch (cause) {
        if (cause instanceof Refusal) return refused(cause.problems);
        if (cause instanceof NotRecording) return { status: 503, body: { because: cause.message } };
        throw cause;
      }
    }),
  );
  return router;
}

const hasDecisions = (errand: LogsErrand | Refused): boolean =>
  'decisions' in errand && (errand.decisions?.length ?? 0) > 0;

/** The joint by the name under which it is kept. */
const named = (joint: unknown, id: unknown): unknown =>
  typeof joint === 'object' && joint !== null && id !== undefined ? { ...joint, id } : joint;

const takenProblems = (id: string, { isTaken }: LogsDesk): readonly Problem[] =>
  isTaken(id)
    ? [{ field: 'id', found: id, allowed: 'a name that no joint of this record has; this one is taken' }]
    : [];

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
    .array(
      z.strictObject({ id: z.string(), name: z.string().min(1).max(limits.textMaximum), said: saidSchema.optional() }),
    )
    .min(1)
    .max(limits.logFilesMaximum),
  said: saidSchema,
  events: z
    .array(
      z.strictObject({ name: z.string().max(limits.textMaximum).optional(), text: z.string().max(limits.bodyMaximum) }),
    )
    .max(2),
  decisions: z.array(dispositionSchema).max(limits.decisionsMaximum).optional(),
});

const refusal = (field: string, found: string, allowed: string) => ({ problems: [{ field, found, allowed }] });

interface Refused {
  readonly problems: readonly Problem[];
}

function errandOf(body: unknown, kept: Shelf): LogsErrand | Refused {
  const asked = askedSchema.safeParse(body);
  if (!asked.success) return { problems: problems(asked.error, body, askedSchema) };
  const { files, said, events, decisions } = asked.data;
  const joint = readJoint(asked.data.joint);
  if ('problems' in joint) {
    return { problems: joint.problems.map((each) => ({ ...each, field: `joint.${each.field}` })) };
  }
  const gone = files.find(({ id }) => kept.get(id) === undefined);
  if (gone !== undefined) {
    return refusal('files', gone.name, 'a file that was handed in a short while ago; choose it again');
  }
  return {
    joint: joint.joint,
    logs: files.map(({ id, name, said: own = {} }) => ({ name, bytes: kept.get(id)!, own: mappingOf(own) })),
    mapping: mappingOf(said),
    events: events.map(({ name, text }) => ({ ...(name === undefined ? {} : { name }), text })),
    ...(decisions === undefined ? {} : { decisions }),
  };
}

const mappingOf = ({ day, start, ...said }: z.infer<typeof saidSchema>): LogSaid => ({
  ...said,
  ...(day === undefined ? {} : { day: Date.parse(`${day}T00:00:00Z`) }),
  ...(start === undefined ? {} : { start: Date.parse(start) as Instant }),
});

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
