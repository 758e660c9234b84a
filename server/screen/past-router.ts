/**
 * OUTLET: past joints searched and counted.
 *
 *   GET /api/past?words=&person=&...&offset=&count=&zone=  -> FoundView | 422 {problems}
 *   GET /api/past/found.csv?...                            (all that was found)
 *   GET /api/past/statistics?...&period=month|week         -> Statistics
 *   GET /api/past/statistics.csv?...
 *   POST /api/joints/:id/what-if {supposed, at?}               -> SupposedAnswer | 404 | 422 {problems}   (nothing is kept)
 *
 * What can be asked stands in past/asked.ts.
 */
import express, { type Request, type Response, type Router } from 'express';
import { limits } from '../measure/limits.ts';
import { readAsked } from '../past/asked.ts';
import { type PeriodKind, periodKinds } from '../past/period.ts';
import type { Asked } from '../past/search.ts';
import type { Statistics } from '../past/statistics.ts';
import type { FoundView } from '../past/view.ts';
import type { NotSupposed, SupposedAnswer } from '../supposing/answer.ts';
import { questionSchema, type Question as Supposed } from '../supposing/supposition.ts';
import { type Problem, problems } from '../weld/problems.ts';
import { zoneOf } from './zone-of.ts';

export interface PastSource {
  find(asked: Asked, from: number, count: number): Promise<FoundView>;
  csv(asked: Asked, zone: string): Promise<Uint8Array>;
  statistics(asked: Asked, period: PeriodKind, zone: string): Promise<Statistics>;
  statisticsCsv(asked: Asked, period: PeriodKind, zone: string): Promise<Uint8Array>;
  /** Undefined where there is no such joint. */
  suppose(joint: string, question: Supposed): Promise<SupposedAnswer | NotSupposed> | undefined;
}

interface Question {
  readonly asked: Asked;
  readonly zone: string;
  readonly period: PeriodKind;
  readonly offset: number;
  readonly count: number;
}

export function pastRouter(source: PastSource): Router {
  const router = express.Router();
  const answering =
    (answer: (question: Question, response: Response) => Promise<void>) =>
    async (request: Request, response: Response): Promise<void> => {
      const question = questionOf(request.query);
      if ('problems' in question) response.status(422).json(question);
      else await answer(question, response);
    };
  const csv = (name: string, make: (question: Question) => Promise<Uint8Array>) =>
    answering(async (question, response) => {
      const bytes = await make(question);
      response.type('text/csv').set('Content-Disposition', `attachment; filename="${name}"`).send(Buffer.from(bytes));
    });

  router.get(
    '/past',
    answering(async ({ asked, offset, count }, response) => {
      response.json(await source.find(asked, offset, count));
    }),
  );
  router.get(
    '/past/statistics',
    answering(async ({ asked, period, zone }, response) => {
      response.json(await source.statistics(asked, period, zone));
    }),
  );
  router.get(
    '/past/found.csv',
    csv('joints.csv', ({ asked, zone }) => source.csv(asked, zone)),
  );
  router.get(
    '/past/statistics.csv',
    csv('statistics.csv', ({ asked, period, zone }) => source.statisticsCsv(asked, period, zone)),
  );
  router.post('/joints/:id/what-if', express.json({ limit: limits.bodyMaximum }), async (request, response) => {
    const asked = questionSchema.safeParse(request.body);
    if (!asked.success)
      return void response.status(422).json({ problems: problems(asked.error, request.body, questionSchema) });
    const answer = await source.suppose(request.params.id as string, asked.data);
    if (answer === undefined) response.status(404).json({ because: 'this station has no joint of that name' });
    else response.status('problems' in answer ? 422 : 200).json(answer);
  });
  return router;
}

function questionOf(query: Request['query']): Question | { readonly problems: readonly Problem[] } {
  const { zone: zoneAsked, period = 'month', offset = '0', count = '50', ...rest } = query;
  const zone = zoneOf(zoneAsked);
  const read = readAsked(rest, zone);
  if ('problems' in read) return read;
  const isPeriod = (given: unknown): given is PeriodKind => (periodKinds as readonly unknown[]).includes(given);
  if (!isPeriod(period)) return refused('period', period, periodKinds.join(' or '));
  const [from, most] = [whole(offset), whole(count)];
  if (from === undefined) return refused('offset', offset, 'a whole number, 0 for the newest');
  if (most === undefined || most < 1) return refused('count', count, `1 to ${limits.foundMaximum}`);
  return { asked: read.asked, zone, period, offset: from, count: Math.min(most, limits.foundMaximum) };
}

const refused = (field: string, found: unknown, allowed: string) => ({
  problems: [{ field, found: String(found), allowed }],
});

const whole = (text: unknown): number | undefined =>
  typeof text === 'string' && /^\d{1,9}$/.test(text) ? Number(text) : undefined;
