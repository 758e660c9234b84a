/** How the desk answers: 422 with what is wrong, 201 once it is recorded, 503 while nothing can be; each request once. */
import type { Request, Response } from 'express';
import type { Problem } from '../weld/problems.ts';
import { NotRecording, Refusal } from './refusal.ts';

export interface Answer {
  readonly status: number;
  readonly body: unknown;
  /** What a repeat is answered once it comes to pass. */
  readonly later?: Promise<Answer>;
}

export const mustSignOn: Answer = {
  status: 401,
  body: { because: 'nobody is signed on here; sign on at the top of the page, then send it again' },
};
export const refused = (list: readonly Problem[]): Answer => ({
  status: 422,
  body: { problems: list },
});
export const within = (field: string, list: readonly Problem[]): Problem[] =>
  list.map((each) => ({
    ...each,
    field: each.field === '(whole)' ? field : `${field}.${each.field}`,
  }));

/** The answer once it is recorded. Where that has to wait, 503 now, and what a repeat is to be answered later. */
export async function recorded(position: Promise<number>, bodyOf: (position: number) => unknown): Promise<Answer> {
  const answer = (at: number): Answer => ({ status: 201, body: bodyOf(at) });
  try {
    return answer(await position);
  } catch (cause) {
    if (cause instanceof Refusal) return refused(cause.problems);
    if (!(cause instanceof NotRecording)) throw cause;
    const body = { because: cause.message };
    return cause.recorded === undefined
      ? { status: 503, body }
      : { status: 503, body, later: cause.recorded.then(answer) };
  }
}

/**
 * Keeps the newest answers by key, and gives a repeat the first answer. A refusal is not kept: corrected, it
 * may come again. What was taken in but could not be recorded yet is kept, so that a repeat makes no second one.
 */
export function answeredOnce() {
  const kept = new Map<string, Promise<Answer>>();
  return async (request: Request, response: Response, make: () => Promise<Answer>): Promise<void> => {
    const key = request.get('idempotency-key');
    const known = key === undefined ? undefined : kept.get(key);
    const first = known ?? make();
    if (key !== undefined && known === undefined) {
      kept.set(key, first);
      if (kept.size > keysKept) kept.delete(kept.keys().next().value!);
      first.then(
        ({ status, later }) => {
          if (later !== undefined) void later.then((answer) => kept.set(key, Promise.resolve(answer)));
          else if (status >= 400) kept.delete(key);
        },
        () => kept.delete(key),
      );
    }
    const { status, body } = await first;
    response.status(status).json(body);
  };
}

const keysKept = 1000;
