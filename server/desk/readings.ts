/**
 * INLET: readings of a closed joint out of the record into a package, and back, while the station runs. The package is handed in
 * and looked at first; only then, with a name and a reason, something is done.
 */
import express, { type Request, type Response, type Router } from 'express';
import { z } from 'zod';
import { limits } from '../measure/limits.ts';
import type { DutyKind } from '../weld/duties.ts';
import type { PackageSeen } from '../weld/package-seen.ts';
import { personSchema } from '../weld/person.ts';
import { problems } from '../weld/problems.ts';
import { type Signed, signedBy } from '../weld/signed.ts';
import { type ActorOf, bodyBy, establishedBy, personFor } from './actor.ts';
import { type Answer, mustSignOn, refused } from './answer.ts';
import { dutyProblems } from './duty.ts';
import { NotRecording } from './refusal.ts';

export interface ReadingsDesk {
  lookAtPackage(joint: string, bytes: Uint8Array): Promise<PackageSeen | { readonly refused: string }>;
  /** The way of a package that was looked at; undefined once it is forgotten. */
  wayOf(joint: string, id: string): PackageSeen['way'] | undefined;
  /** Throws NotRecording. */
  moveReadings(
    joint: string,
    id: string,
    by: Signed,
    reason: string | undefined,
  ): { readonly text: string } | { readonly refused: string };
}

const askedSchema = z.strictObject({
  who: personSchema,
  package: z.string().max(limits.nameMaximum),
  reason: z.string().trim().max(limits.textMaximum).optional(),
});

const duties: { readonly [way in PackageSeen['way']]: DutyKind } = {
  remove: 'remove readings',
  'put back': 'put readings back',
};

export function readingsRoutes(
  router: Router,
  station: ReadingsDesk & { isTaken(id: string): boolean },
  actorOf: ActorOf,
  once: (request: Request, response: Response, make: () => Promise<Answer>) => Promise<void>,
  notFound: Answer,
): void {
  const file = express.raw({ type: () => true, limit: limits.packagePageMaximum });
  router.post('/joints/:id/readings/package', file, async (request, response) => {
    const { status, body } = await looked(request as Request<{ id: string }>);
    response.status(status).json(body);
  });

  const looked = async (request: Request<{ id: string }>): Promise<Answer> => {
    const { id } = request.params;
    if (!station.isTaken(id)) return notFound;
    const actor = actorOf(request);
    if (actor === 'nobody') return mustSignOn;
    const against = actor === 'as named' ? [] : dutyProblems(duties.remove, personFor(actor, duties.remove));
    if (against.length > 0) return refused(against);
    const bytes: unknown = request.body;
    if (!Buffer.isBuffer(bytes) || bytes.length === 0)
      return refused([{ field: 'package', found: 'no bytes', allowed: 'The package of this joint, a .zip file.' }]);
    const seen = await station.lookAtPackage(id, bytes);
    return 'refused' in seen ? unfit(seen.refused) : { status: 200, body: seen };
  };

  router.post('/joints/:id/readings', express.json({ limit: limits.bodyMaximum }), (request, response) =>
    once(request, response, async () => {
      const { id } = request.params as { id: string };
      if (!station.isTaken(id)) return notFound;
      const actor = actorOf(request);
      if (actor === 'nobody') return mustSignOn;
      const sent = request.body as { readonly package?: unknown } | undefined;
      const way = station.wayOf(id, String(sent?.package));
      if (way === undefined) return unfit('The station does not hold that package any more. Choose the file again.');
      const body = bodyBy(actor, request.body, duties[way]);
      const asked = askedSchema.safeParse(body);
      if (!asked.success) return refused(problems(asked.error, body, askedSchema));
      const { who, reason = '' } = asked.data;
      const found = [
        ...dutyProblems(duties[way], who),
        ...(way === 'remove' && reason === ''
          ? [
              {
                field: 'reason',
                found: 'no reason',
                allowed: 'Why they are removed; it stands in the record for ever.',
              },
            ]
          : []),
      ];
      if (found.length > 0) return refused(found);
      return moved(station, id, asked.data.package, signedBy(who, establishedBy(actor)), reason);
    }),
  );
}

const moved = (station: ReadingsDesk, joint: string, id: string, by: Signed, reason: string): Answer => {
  try {
    const done = station.moveReadings(joint, id, by, reason === '' ? undefined : reason);
    return 'text' in done ? { status: 201, body: done } : unfit(done.refused);
  } catch (cause) {
    if (!(cause instanceof NotRecording)) throw cause;
    return { status: 503, body: { because: cause.message } };
  }
};

const unfit = (why: string): Answer => refused([{ field: 'package', found: 'a package', allowed: why }]);
