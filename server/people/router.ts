/** Signing on over HTTP, and what somebody who is signed on may do for himself. The rest is the administrator's (admin-router.ts). */
import express, { type Request, type Response, type Router } from 'express';
import type { z } from 'zod';
import { Refusal } from '../desk/refusal.ts';
import { roleFor } from '../weld/duties.ts';
import { problems } from '../weld/problems.ts';
import { rolesText } from '../wording/duty.ts';
import { listText } from '../wording/list.ts';
import { personById } from './people.ts';
import { ownSecretSchema, signOnSchema } from './requests.ts';
import type { SignOn } from './sign-on.ts';

const bodyMaximum = 10_000;

export function signOnRouter(signOn: SignOn): Router {
  const router = express.Router();
  const json = express.json({ limit: bodyMaximum });
  const { sessions, cookies, secrets, book } = signOn;

  router.get('/sign-on', (request, response) => void response.json(signOn.view(request)));

  router.post('/sign-on', json, async (request, response) => {
    const asked = signOnSchema.safeParse(request.body);
    if (!asked.success) return void unreadable(response);
    const proved = await signOn.prove(request, asked.data);
    if (proved.person === undefined) return void response.status(401).json({ because: proved.because });
    signOn.begin(request, response, proved);
    response.status(201).json({});
  });

  /** Who takes over a shift signs beside who hands it over; the first stays signed on. */
  router.post('/counter-sign', json, async (request, response) => {
    const first = signOn.signer(request);
    if (first === undefined) return void response.status(401).json({ because: 'who hands over signs on first' });
    const asked = signOnSchema.safeParse(request.body);
    if (!asked.success) return void unreadable(response);
    const proved = await signOn.prove(request, asked.data);
    if (proved.person === undefined) return void response.status(401).json({ because: proved.because });
    if (proved.person.id === first.id)
      return void response
        .status(422)
        .json({ problems: [{ field: 'to', found: first.name, allowed: 'somebody else' }] });
    if (roleFor('hand-over', proved.person.roles) === undefined) {
      const found = `${proved.person.name}, ${listText(proved.person.roles)}`;
      return void response.status(422).json({ problems: [{ field: 'to', found, allowed: rolesText('hand-over') }] });
    }
    response.status(201).json({ counterSign: signOn.counterSign(request, proved), name: proved.person.name });
  });

  /** The screen was touched: a sign-on goes on. */
  router.post('/sign-on/touch', (request, response) => {
    sessions.touch(cookies.read(request, 'session'));
    response.json(signOn.view(request));
  });

  router.post('/sign-off', (request, response) => {
    sessions.end(cookies.read(request, 'session'));
    cookies.forget(response, 'session');
    response.json({});
  });

  /** One's own password or PIN, against the password that one has. */
  router.post('/sign-on/own', json, async (request, response) => {
    const signer = signOn.signer(request);
    const person = signer === undefined ? undefined : personById(book, signer.id);
    if (person === undefined) return void response.status(401).json({ because: 'sign on first' });
    const asked = ownSecretSchema.safeParse(request.body);
    if (!asked.success) return void unreadable(response);
    const { kind, password, secret } = asked.data;
    if ((await secrets.check(person, 'password', password)) !== 'right')
      return void response.status(401).json({ because: 'the password that you have now is not right' });
    await answered(response, async () => {
      await secrets.set(person, kind, secret, person.name);
      return {};
    });
  });

  return router;
}

/** Says only that it cannot be read: what was sent may hold a secret, which no answer repeats. */
const unreadable = (response: Response): void =>
  void response.status(422).json({
    problems: [
      { field: '(whole)', found: 'a sign-on that cannot be read', allowed: 'name and password, PIN, or badge' },
    ],
  });

/** Answers with what the work gives, or with what is wrong at which field. */
export async function answered(response: Response, work: () => unknown): Promise<void> {
  try {
    response.status(201).json((await work()) ?? {});
  } catch (cause) {
    if (!(cause instanceof Refusal)) throw cause;
    response.status(422).json({ problems: cause.problems });
  }
}

/** The body as the schema reads it; undefined once what is wrong with it was answered. */
export function readBody<S extends z.ZodType>(schema: S, request: Request, response: Response): z.infer<S> | undefined {
  const read = schema.safeParse(request.body);
  if (read.success) return read.data;
  response.status(422).json({ problems: problems(read.error, request.body, schema) });
  return undefined;
}
