/** Sends a request for a time stamp to the address that the user gave, once, and says in plain words why nothing came of it. */
import { limits } from '../measure/limits.ts';

export type Sent = { readonly answer: Uint8Array } | { readonly failed: string };

export const sendRequest = async (
  address: string,
  request: Uint8Array,
  wait: number = limits.stampWaitMilliseconds,
): Promise<Sent> => {
  if (!isWebAddress(address))
    return { failed: `"${address}" is no address to send to: it begins with http:// or https://` };
  try {
    const response = await fetch(address, {
      method: 'POST',
      headers: { 'Content-Type': 'application/timestamp-query' },
      body: Uint8Array.from(request),
      signal: AbortSignal.timeout(wait),
    });
    if (!response.ok)
      return {
        failed: `${address} answered with status ${response.status}. Check the address, and whether it serves you.`,
      };
    const kind = response.headers.get('content-type')?.split(';')[0] ?? 'nothing';
    if (kind !== 'application/timestamp-reply')
      return { failed: `${address} answered with ${kind} and not with a time stamp. Check the address.` };
    return await bounded(response, address);
  } catch (error) {
    return { failed: `${address}: ${because(error, wait)}` };
  }
};

const isWebAddress = (text: string): boolean => /^https?:\/\//i.test(text) && URL.canParse(text);

const bounded = async (response: Response, address: string): Promise<Sent> => {
  const parts: Uint8Array[] = [];
  let length = 0;
  for await (const part of response.body ?? []) {
    length += part.length;
    if (length > limits.stampMaximum) return { failed: `${address} answered with more than a time stamp is.` };
    parts.push(part);
  }
  return { answer: new Uint8Array(Buffer.concat(parts)) };
};

const because = (error: unknown, wait: number): string => {
  const { name, message, cause } = error as Error & { readonly cause?: { readonly code?: string } };
  if (name === 'TimeoutError') return `no answer within ${wait / 1000} s. Try again later, or another authority.`;
  const told: Readonly<Record<string, string>> = {
    ECONNREFUSED: 'nobody answers at that address. Check it, and the port.',
    ENOTFOUND: 'no such name is known. Check the address, and that this machine has a network.',
    EAI_AGAIN: 'the name cannot be looked up. Check that this machine has a network.',
    ECONNRESET: 'the connection was broken off. Try again.',
  };
  return (
    told[cause?.code ?? ''] ??
    `it cannot be reached (${cause?.code ?? message}). Send the request by other means instead: --out.`
  );
};
