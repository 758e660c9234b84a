/**
 * A time stamp on its way into the record: a request for a head, and the answer to it, looked at before it is kept. What
 * is kept holds: its imprint is that of an entry of this record, its nonce the one asked with, its signature good.
 */
import { randomBytes } from 'node:crypto';
import { type ChainHeadText, headBytes, headText } from '../ledger/head-text.ts';
import { type StampBody, stampBody } from '../ledger/stamp-entry.ts';
import { limits } from '../measure/limits.ts';
import { Unreadable } from '../stamp/asn1.ts';
import { checkStamp, type Stamp } from '../stamp/check.ts';
import { isImprintOf, readRequest, type StampRequest, stampRequest } from '../stamp/request.ts';
import { stampFaultText } from '../wording/stamp.ts';
import { mathematics } from './certificate-signature.ts';
import type { RecordReader } from './read.ts';

/** For the newest head of a chain; undefined where it has no entry. */
export const requestFor = (
  reader: Pick<RecordReader, 'signedHead'>,
  chain: string,
): { readonly head: ChainHeadText; readonly request: Uint8Array } | undefined => {
  const { seq, hash } = reader.signedHead(chain);
  if (seq === 0) return undefined;
  const head = { chain, seq, hash };
  return { head, request: stampRequest(headBytes(head), randomBytes(8)) };
};

export interface Checked {
  readonly head: ChainHeadText;
  readonly body: StampBody;
  readonly stamp: Stamp;
}

/** `chains`: those in which the stamped entry is looked for. */
export const checkedStamp = (
  reader: Pick<RecordReader, 'hashes'>,
  chains: readonly string[],
  files: { readonly request: Uint8Array; readonly answer: Uint8Array },
): Checked | { readonly refused: string } => {
  const large = Math.max(files.request.length, files.answer.length) > limits.stampMaximum;
  if (large) return { refused: `It is larger than ${limits.stampMaximum} bytes; no time stamp is.` };
  const request = requestIn(files.request);
  if ('refused' in request) return request;
  const head = stampedHead(reader, chains, request);
  if (head === undefined)
    return { refused: 'The request is for no entry of this record. Give the request that was made here for it.' };
  const asked = { text: headBytes(head), ...(request.nonce === undefined ? {} : { nonce: request.nonce }) };
  const found = checkStamp(files.answer, asked, mathematics.byCertificate);
  if ('fault' in found) return { refused: `Not kept: ${stampFaultText(found.fault)}.` };
  return { head, body: stampBody(headText(head), files.answer, request.nonce), stamp: found.stamp };
};

const requestIn = (bytes: Uint8Array): StampRequest | { readonly refused: string } => {
  try {
    return readRequest(bytes);
  } catch (error) {
    if (!(error instanceof Unreadable)) throw error;
    return {
      refused: `The request cannot be read: ${error.message}. Give the file that was made here, or by OpenSSL.`,
    };
  }
};

const stampedHead = (
  reader: Pick<RecordReader, 'hashes'>,
  chains: readonly string[],
  { imprint }: StampRequest,
): ChainHeadText | undefined => {
  for (const chain of chains)
    for (const { seq, hash } of reader.hashes(chain))
      if (isImprintOf(imprint, headBytes({ chain, seq, hash }))) return { chain, seq, hash };
  return undefined;
};
