/**
 * INLET: what people do, over HTTP. Everything is parsed here once; an answer "recorded" is given only when
 * it is. An act carries a key of its own (Idempotency-Key): sent twice after a lost answer, it is recorded once.
 */
import express, { type Request, type Router } from 'express';
import type { Assessment } from '../judgement/assessment.ts';
import { limits } from '../measure/limits.ts';
import type { Instant } from '../measure/quantity.ts';
import { requirement } from '../metallurgy/requirement.ts';
import { mediaTypeSchema } from '../weld/document.ts';
import { type NamedAct, namedActSchema } from '../weld/entry.ts';
import type { Joint } from '../weld/joint.ts';
import { type Established, type Person, personSchema } from '../weld/person.ts';
import { type Problem, problems } from '../weld/problems.ts';
import type { ProcedureAsked } from '../weld/procedure-act.ts';
import type { Qualification } from '../weld/qualification.ts';
import { readJoint } from '../weld/read-joint.ts';
import type { Signed } from '../weld/signed.ts';
import { type ActorOf, bodyBy, establishedBy, inRole, kindIn, personFor, type Signer, takenAsNamed } from './actor.ts';
import { actProblems } from './acts.ts';
import { type Answer, answeredOnce, mustSignOn, recorded, refused, within } from './answer.ts';
import { askedRole } from './check-acts.ts';
import { dutyProblems } from './duty.ts';
import { countersigned, handOverProblems } from './hand-over.ts';
import { procedureRoutes } from './procedures.ts';
import { type ReadingsDesk, readingsRoutes } from './readings.ts';
import { NotRecording } from './refusal.ts';
import { type StampDesk, stampRoutes } from './stamps.ts';
import { withQualifications } from './welder.ts';

/** What the desk needs of the station. Both promises reject with NotRecording while nothing can be recorded, or with Refusal. */
export interface DeskStation extends StampDesk, ReadingsDesk {
  now(): Instant;
  joint(id: string): { readonly joint: Joint; readonly assessment: Assessment } | undefined;
  /** Who acts in a request; without it whoever the request names. */
  readonly actor?: ActorOf;
  /** Who signed a hand-over as the second. */
  counterSigner?(request: Request): Signer | undefined;
  /** Of a welder by name; none is an empty list, undefined where the station knows nobody. */
  readonly qualificationsOf?: (welder: string) => readonly Qualification[] | undefined;
  /** Ids that are taken, those of closed joints included. */
  isTaken(id: string): boolean;
  openJoints(): number;
  open(joint: Joint, who: Person, established: Established): Promise<number>;
  act(id: string, act: NamedAct): Promise<number>;
  procedure(asked: ProcedureAsked, signed: Signed): Promise<number>;
  /** Throws NotRecording. */
  putDocument(bytes: Uint8Array, mediaType: string): string;
}

export function deskRouter(station: DeskStation): Router {
  const router = express.Router();
  const once = answeredOnce();
  const json = express.json({ limit: limits.bodyMaximum });
  const { actor: actorOf = takenAsNamed } = station;

  router.post('/requirement', json, (request, response) => {
    const read = readJoint((request.body as { joint?: unknown } | undefined)?.joint);
    if ('problems' in read) response.status(422).json({ problems: read.problems });
    else response.json(requirement(read.joint, []));
  });

  router.post('/joints', json, (request, response) =>
    once(request, response, async () => {
      const actor = actorOf(request);
      if (actor === 'nobody') return mustSignOn;
      const body = bodyBy(actor, request.body, 'open') as { who?: unknown; joint?: unknown } | undefined;
      const who = personSchema.safeParse(body?.who);
      const read = readJoint(body?.joint);
      const found: Problem[] = [
        ...(who.success ? [] : within('who', problems(who.error, body?.who, personSchema))),
        ...(who.success ? dutyProblems('open', who.data) : []),
        ...('problems' in read ? within('joint', read.problems) : jointProblems(read.joint, station)),
      ];
      if (!who.success || 'problems' in read || found.length > 0) return refused(found);
      return recorded(station.open(read.joint, who.data, establishedBy(actor)), () => ({ joint: read.joint.id }));
    }),
  );

  router.post('/joints/:id/acts', json, (request, response) =>
    once(request, response, async () => {
      const known = station.joint(request.params.id as string);
      if (known === undefined) return notFound;
      const actor = actorOf(request);
      if (actor === 'nobody') return mustSignOn;
      const other = station.counterSigner?.(request);
      const sent = withQualifications(bodyBy(actor, request.body, kindIn(request.body)), station.qualificationsOf);
      const body = countersigned(sent, actor, other);
      const named = namedActSchema.safeParse(body);
      if (!named.success) return refused(problems(named.error, body, namedActSchema));
      const { act } = named.data;
      const who = inRole(named.data.who, actor, askedRole(act, known.joint.procedure));
      const found = [
        ...dutyProblems(act.kind, who),
        ...handOverProblems(act, who.name, actor !== 'as named' && other === undefined),
        ...actProblems(act, known.assessment, known.joint, station.now(), who.role),
      ];
      if (found.length > 0) return refused(found);
      const signed = { who, act, established: establishedBy(actor) };
      return recorded(station.act(known.joint.id, signed), (position) => ({ position }));
    }),
  );

  router.post(
    '/joints/:id/documents',
    express.raw({ type: () => true, limit: limits.documentMaximum }),
    (request, response) => {
      if (station.joint(request.params.id as string) === undefined)
        return void response.status(404).json(notFound.body);
      const actor = actorOf(request);
      if (actor === 'nobody') return void response.status(mustSignOn.status).json(mustSignOn.body);
      const against = actor === 'as named' ? [] : dutyProblems('attach', personFor(actor, 'attach'));
      if (against.length > 0) return void response.status(422).json({ problems: against });
      const bytes: unknown = request.body;
      if (!Buffer.isBuffer(bytes) || bytes.length === 0) {
        return void response.status(422).json({
          problems: [
            {
              field: '(whole)',
              found: 'no bytes',
              allowed: 'a file that is not empty',
            },
          ],
        });
      }
      const mediaType = mediaTypeSchema.safeParse(mediaTypeOf(request));
      if (!mediaType.success) {
        const found = problems(mediaType.error, mediaTypeOf(request), mediaTypeSchema);
        return void response.status(422).json({ problems: within('Content-Type', found) });
      }
      try {
        const sha256 = station.putDocument(bytes, mediaType.data);
        response.status(201).json({ sha256, bytes: bytes.length });
      } catch (cause) {
        if (!(cause instanceof NotRecording)) throw cause;
        response.status(503).json({ because: cause.message });
      }
    },
  );

  procedureRoutes(router, station, once);
  stampRoutes(router, station, actorOf, notFound);
  readingsRoutes(router, station, actorOf, once, notFound);
  return router;
}

/** Without its parameters: a kept document is given back as bytes. */
const mediaTypeOf = (request: Request): string =>
  (request.get('content-type') ?? 'application/octet-stream').split(';')[0]!.trim().toLowerCase();

const notFound: Answer = {
  status: 404,
  body: { because: 'this station has no joint of that name' },
};

function jointProblems(joint: Joint, station: DeskStation): Problem[] {
  if (station.isTaken(joint.id)) {
    return [
      {
        field: 'joint.id',
        found: joint.id,
        allowed: 'a name that no joint of this record has; this one is taken',
      },
    ];
  }
  return station.openJoints() >= limits.openJointsMaximum
    ? [
        {
          field: 'joint',
          found: `${station.openJoints()} joints open`,
          allowed: `at most ${limits.openJointsMaximum}; close one first`,
        },
      ]
    : [];
}
