/**
 * What speaks on a port on which no board of this station does: text of another device, bytes that this speed does not
 * make readable, or too little to tell. Pure: it counts what is handed in. A wrong speed gives bytes with the high bit
 * set, zeros and hardly a line feed; another device at the right speed gives lines of text that are no frames.
 */
import { limits } from '../measure/limits.ts';

export type Strange = 'nothing' | 'perhaps' | 'text' | 'unreadable';

export interface Stranger {
  bytes(bytes: Uint8Array): void;
  /** A whole line that is no frame of a board. hasCheck: but it has a check value, as only boards send. */
  refusedLine(hasCheck: boolean): void;
  /** A frame of a board. */
  frame(): void;
  /** Something that is no board may be here: it is asked nothing. */
  doubtful(): boolean;
  /** For certain, also where a board spoke before: clean text of many lines, and nothing of a board in it. An arc makes none. */
  isPlainText(): boolean;
  /** What it is, so long after the port was opened. */
  verdict(afterMilliseconds: number): Strange;
}

/** Own choice: noise has a readable share of about 0.4, text of 1; a burst among text leaves it above this. */
const readableShare = 0.8;
const cleanShare = 0.98;

export function createStranger(): Stranger {
  let taken = 0;
  let readable = 0;
  let lines = 0;
  let ofBoards = 0;
  const isUnreadable = (): boolean => taken >= limits.strangeBytes && readable < taken * readableShare;
  return {
    bytes: (bytes) => {
      taken += bytes.length;
      for (const byte of bytes) if (isText(byte)) readable += 1;
    },
    refusedLine: (hasCheck) => {
      lines += 1;
      if (hasCheck) ofBoards += 1;
    },
    frame: () => {
      ofBoards += 1;
    },
    isPlainText: () => ofBoards === 0 && lines >= limits.strangeLines && readable >= taken * cleanShare,
    doubtful: () => lines > 0 || isUnreadable(),
    verdict: (afterMilliseconds) => {
      if (taken === 0) return 'nothing';
      if (afterMilliseconds < limits.strangeMilliseconds || taken < limits.strangeBytes) return 'perhaps';
      if (isUnreadable()) return 'unreadable';
      return lines >= limits.strangeLines ? 'text' : 'perhaps';
    },
  };
}

const isText = (byte: number): boolean => (byte >= 0x20 && byte <= 0x7e) || (byte >= 0x09 && byte <= 0x0d);
