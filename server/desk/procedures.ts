/** Procedures over HTTP: a new revision, and the withdrawal of one. What is recorded is never changed. */
import express, { type Request, type Response, type Router } from 'express';
import { limits } from '../measure/limits.ts';
import type { Person } from '../weld/person.ts';
import { problems } from '../weld/problems.ts';
import { type ProcedureAsked, procedureEntrySchema, withdrawalSchema } from '../weld/procedure-act.ts';
import { type Signed, signedBy } from '../weld/signed.ts';
import { type ActorOf, bodyBy, establishedBy, takenAsNamed } from './actor.ts';
import { type Answer, mustSignOn, recorded, refused } from './answer.ts';
import { dutyProblems } from './duty.ts';

interface ProcedureDesk {
  readonly actor?: ActorOf;
  procedure(asked: ProcedureAsked, signed: Signed): Promise<number>;
}
type Once = (request: Request, response: Response, make: () => Promise<Answer>) => Promise<void>;
/** What was entered, or what is wrong with it. */
type Read = { readonly who: Person; readonly asked: ProcedureAsked } | Answer;

export function procedureRoutes(router: Router, station: ProcedureDesk, once: Once): void {
  const json = express.json({ limit: limits.bodyMaximum });
  const { actor: actorOf = takenAsNamed } = station;

  const taken = async (request: Request, kind: ProcedureAsked['kind'], read: (body: unknown) => Read) => {
    const actor = actorOf(request);
    if (actor === 'nobody') return mustSignOn;
    const entered = read(bodyBy(actor, request.body, kind));
    if ('status' in entered) return entered;
    const { who, asked } = entered;
    const against = dutyProblems(kind, who);
    if (against.length > 0) return refused(against);
    return recorded(station.procedure(asked, signedBy(who, establishedBy(actor))), (position) => ({ position }));
  };

  router.post('/procedures', json, (request, response) =>
    once(request, response, () =>
      taken(request, 'procedure', (body) => {
        const entered = procedureEntrySchema.safeParse(body);
        if (!entered.success) return refused(problems(entered.error, body, procedureEntrySchema));
        const { who, revision, reason } = entered.data;
        return { who, asked: { kind: 'procedure', revision, reason } };
      }),
    ),
  );

  router.post('/procedures/:sha256/withdrawal', json, (request, response) =>
    once(request, response, () =>
      taken(request, 'withdraw procedure', (body) => {
        const entered = withdrawalSchema.safeParse(body);
        if (!entered.success) return refused(problems(entered.error, body, withdrawalSchema));
        const { who, reason } = entered.data;
        return { who, asked: { kind: 'withdraw procedure', sha256: request.params.sha256 as string, reason } };
      }),
    ),
  );
}
