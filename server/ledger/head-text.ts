/**
 * A head as one line of text: what is signed, printed, shown as a code, stamped, and asked for by `verify`. A signed
 * head carries its signature with it, so that a photo of it proves what the station once stood behind.
 */
import { bytesToHex } from '@noble/hashes/utils.js';

export interface ChainHeadText {
  readonly chain: string;
  readonly seq: number;
  readonly hash: string;
  /** Of the head's text, 128 hexadecimal digits. */
  readonly signature?: string;
}

/** `CHAIN=SEQ:HASH`: the text whose bytes are signed. */
export const headText = ({ chain, seq, hash }: ChainHeadText): string => `${chain}=${seq}:${hash}`;

/** `CHAIN=SEQ:HASH:SIGNATURE`; without a signature the head alone. */
export const signedHeadText = (head: ChainHeadText): string =>
  head.signature === undefined ? headText(head) : `${headText(head)}:${head.signature}`;

const form = /^(.+)=([1-9]\d{0,14}):([0-9a-f]{64})(?::([0-9a-f]{128}))?$/;

/** What a typist adds, and where a line of a PDF that was copied breaks (U+200B): none of it is part of a head or a key. */
export const withoutBreaks = (text: string): string => text.replace(/\s|\p{Cf}/gu, '');

/** Undefined for a text that is no head. */
export const readHeadText = (text: string): ChainHeadText | undefined => {
  const [, chain, seq, hash, signature] = form.exec(withoutBreaks(text).replace(/[0-9A-F:]+$/i, lower)) ?? [];
  if (chain === undefined || seq === undefined || hash === undefined) return undefined;
  return { chain, seq: Number(seq), hash, ...(signature === undefined ? {} : { signature }) };
};

const lower = (text: string): string => text.toLowerCase();

const encoder = new TextEncoder();
export const headBytes = (head: ChainHeadText): Uint8Array => encoder.encode(headText(head));

export const signatureText = (signature: Uint8Array): string => bytesToHex(signature);

/** The name of its file: anything but letters and figures would not be a name everywhere. */
export const headFileName = ({ chain, seq }: ChainHeadText): string =>
  `${chain.replace(/[^A-Za-z0-9._-]/g, '_')}-${seq}.head.txt`;

/** A head as a small file: the line itself, and what it is for. */
export const headFileText = (head: ChainHeadText): string =>
  [
    signedHeadText(head),
    '',
    `Head of the record of ${head.chain}, up to entry ${head.seq}. Keep this file where whoever keeps the record cannot change it.`,
    'verify RECORD --head FILE, with this file, tells later whether what was recorded until then was rewritten.',
    '',
  ].join('\n');

/** The head in a text or a file: the whole of it, or the one line that is a head. Undefined where there is none. */
export const findHead = (text: string): ChainHeadText | undefined =>
  readHeadText(text) ??
  text
    .split(/\r?\n/)
    .map(readHeadText)
    .find((head) => head !== undefined);
