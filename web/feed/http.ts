/**
 * Requests to the station. Every answer is a named value; nothing throws, so that what a person typed is
 * never lost in an exception. An act carries a key of its own: sent twice, it is recorded once.
 */
import type { Problem } from '../../server/screen/contract.ts';

export type Answer<T> =
  | { readonly kind: 'ok'; readonly value: T }
  /** The station read it and says which fields are wrong. */
  | { readonly kind: 'problems'; readonly problems: readonly Problem[] }
  /** The station cannot write; nothing was recorded. */
  | { readonly kind: 'not recording'; readonly because: string }
  | { readonly kind: 'not found' }
  /** No answer came: it is not known whether the station took it. */
  | { readonly kind: 'unreachable' }
  | { readonly kind: 'refused'; readonly status: number; readonly because: string };

const patience = 8_000;

export const getJson = <T>(path: string): Promise<Answer<T>> => request<T>(path, { method: 'GET' });

/** `key` names this one act, so that a repeat after a lost answer is not recorded twice. */
export const postJson = <T>(
  path: string,
  body: unknown,
  key?: string,
  counterSign?: string,
  wait?: number,
): Promise<Answer<T>> =>
  request<T>(
    path,
    {
      method: 'POST',
      headers: {
        'Content-Type': 'application/json',
        ...(key === undefined ? {} : { 'Idempotency-Key': key }),
        ...(counterSign === undefined ? {} : { 'Counter-Sign': counterSign }),
      },
      body: JSON.stringify(body),
    },
    wait,
  );

export const sendJson = <T>(method: 'POST' | 'PUT' | 'DELETE', path: string, body: unknown): Promise<Answer<T>> =>
  request<T>(path, { method, headers: { 'Content-Type': 'application/json' }, body: JSON.stringify(body) });

export const postFile = <T>(path: string, file: Blob, key?: string): Promise<Answer<T>> =>
  request<T>(
    path,
    {
      method: 'POST',
      headers: {
        'Content-Type': file.type || 'application/octet-stream',
        ...(key === undefined ? {} : { 'Idempotency-Key': key }),
      },
      body: file,
    },
    60_000,
  );

/** A key that no other act has. Works on plain HTTP too, where crypto.randomUUID is withheld. */
export const actKey = (): string =>
  [...crypto.getRandomValues(new Uint8Array(16))].map((byte) => byte.toString(16).padStart(2, '0')).join('');

async function request<T>(path: string, init: RequestInit, wait = patience): Promise<Answer<T>> {
  let response: Response;
  let body: unknown;
  try {
    response = await fetch(path, { ...init, cache: 'no-store', signal: AbortSignal.timeout(wait) });
    const text = await response.text();
    body = text === '' ? undefined : parse(text);
  } catch {
    return { kind: 'unreachable' };
  }
  if (response.ok) return { kind: 'ok', value: body as T };
  if (response.status === 404) return { kind: 'not found' };
  if (response.status === 422 && hasProblems(body)) return { kind: 'problems', problems: body.problems };
  if (response.status === 503) return { kind: 'not recording', because: reason(body) };
  return { kind: 'refused', status: response.status, because: reason(body) };
}

const parse = (text: string): unknown => {
  try {
    return JSON.parse(text);
  } catch {
    return undefined;
  }
};

const hasProblems = (body: unknown): body is { problems: readonly Problem[] } =>
  typeof body === 'object' && body !== null && Array.isArray((body as { problems?: unknown }).problems);

const reason = (body: unknown): string => {
  if (typeof body !== 'object' || body === null) return '';
  const { because, error, message } = body as { because?: unknown; error?: unknown; message?: unknown };
  const said = [because, error, message].find((each) => typeof each === 'string');
  return typeof said === 'string' ? said : '';
};
