/** A station with people over HTTP on loopback: browsers that keep the cookies they are given, and the desk behind. */
import { expect } from 'vitest';
import { adminRouter } from '../../server/people/admin-router.ts';
import type { PersonKept } from '../../server/people/people.ts';
import { signOnRouter } from '../../server/people/router.ts';
import type { Role } from '../../server/weld/person.ts';
import type { SignOnView } from '../../server/weld/sign-on.ts';
import { httpBench } from './http-bench.ts';
import { password, peopleBench } from './people.ts';
import { group, jointOn, pipelineBench } from './pipeline-bench.ts';

export async function shop() {
  const bench = pipelineBench();
  const people = peopleBench(bench.clock, `${bench.folder}.people.sqlite`);
  const { signOn } = people;
  const http = await httpBench([signOnRouter(signOn), adminRouter(signOn)], bench, signOn);
  /** A browser: keeps the cookies that it is given. */
  const browser = () => {
    const jar = new Map<string, string>();
    const send = async (method: string, path: string, body?: unknown, more: object = {}): Promise<Response> => {
      const cookie = [...jar].map(([name, value]) => `${name}=${value}`).join('; ');
      const answer = await http.ask(path, {
        method,
        headers: { 'Content-Type': 'application/json', cookie, origin: http.address, ...more },
        ...(body === undefined ? {} : { body: JSON.stringify(body) }),
      });
      for (const set of answer.headers.getSetCookie()) {
        const [, name = '', value = ''] = /^([^=]+)=([^;]*)/.exec(set) ?? [];
        expect(set).toMatch(/HttpOnly/i);
        expect(set).toMatch(/SameSite=Strict/i);
        if (value === '') jar.delete(name);
        else jar.set(name, value);
      }
      return answer;
    };
    return {
      send,
      post: (path: string, body: unknown = {}) => send('POST', path, body),
      view: async () => (await (await send('GET', '/api/sign-on')).json()) as SignOnView,
      signOn: (name: string, secret = password) => send('POST', '/api/sign-on', { name, password: secret }),
      act: (act: object, who?: object) => send('POST', '/api/joints/one/acts', { ...(who && { who }), act }),
    };
  };
  const open = async () => {
    const opening = http.bench.pipeline.open(jointOn('one', 'b1'), 'Runa Teld');
    http.bench.clock.move(group);
    await opening;
  };
  await open();
  const add = (name: string, ...roles: Role[]): Promise<PersonKept> => people.add(name, ...roles);
  const newest = () => [...http.bench.record.entries('one')].findLast((entry) => entry.class === 'input');
  return { ...people, http, browser, add, newest };
}

export const because = async (answer: Response): Promise<string> =>
  ((await answer.json()) as { because: string }).because;
export const problem = async (answer: Response) =>
  ((await answer.json()) as { problems: { field: string; found: string; allowed: string }[] }).problems[0]!;
