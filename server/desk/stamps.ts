/** INLET: the answer of a time stamp authority, handed in with the request that it answers. Checked before it is kept. */
import express, { type Router } from 'express';
import { z } from 'zod';
import { limits } from '../measure/limits.ts';
import { problems } from '../weld/problems.ts';
import { type ActorOf, personFor } from './actor.ts';
import { type Answer, mustSignOn, refused } from './answer.ts';
import { dutyProblems } from './duty.ts';
import { NotRecording } from './refusal.ts';

export interface StampDesk {
  /** Keeps the stamp and says what it is, or why it is not kept. Throws NotRecording. */
  keepStamp(id: string, files: StampFiles): { readonly text: string } | { readonly refused: string };
}
export interface StampFiles {
  readonly request: Uint8Array;
  readonly answer: Uint8Array;
}

const base64 = z
  .string()
  .min(1)
  .max(Math.ceil(limits.stampMaximum / 3) * 4)
  .regex(/^[A-Za-z0-9+/]+={0,2}$/, 'a file of a request or an answer, as base64');
const filesSchema = z.strictObject({ request: base64, answer: base64 });

export function stampRoutes(
  router: Router,
  station: StampDesk & { isTaken(id: string): boolean },
  actorOf: ActorOf,
  notFound: Answer,
): void {
  router.post('/joints/:id/stamps', express.json({ limit: limits.bodyMaximum }), (request, response) => {
    const { id } = request.params;
    const answer = ({ status, body }: Answer): void => void response.status(status).json(body);
    if (!station.isTaken(id)) return answer(notFound);
    const actor = actorOf(request);
    if (actor === 'nobody') return answer(mustSignOn);
    const against = actor === 'as named' ? [] : dutyProblems('attach', personFor(actor, 'attach'));
    if (against.length > 0) return answer(refused(against));
    const read = filesSchema.safeParse(request.body);
    if (!read.success) return answer(refused(problems(read.error, request.body, filesSchema)));
    try {
      const kept = station.keepStamp(id, { request: bytesOf(read.data.request), answer: bytesOf(read.data.answer) });
      if ('text' in kept) answer({ status: 201, body: kept });
      else answer(refused([{ field: 'answer', found: 'an answer', allowed: kept.refused }]));
    } catch (cause) {
      if (!(cause instanceof NotRecording)) throw cause;
      answer({ status: 503, body: { because: cause.message } });
    }
  });
}

const bytesOf = (text: string): Uint8Array => new Uint8Array(Buffer.from(text, 'base64'));
