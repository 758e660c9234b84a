/**
 * Bytes become lines, for one opening of one port. Everything up to the first LF is dropped, since the
 * opening may have cut it. In front of the line parser, which would keep bytes without end, stands a cap:
 * one character more than a line may have passes, enough for the codec to refuse it, and the rest of it is
 * dropped. Nothing outlives the opening: the next one makes a new intake.
 */
import { ReadlineParser } from '@serialport/parser-readline';
import { limits } from '../measure/limits.ts';

export interface LineIntake {
  take(bytes: Uint8Array): void;
  /** No line comes after this. What half a line was still held counts as dropped. */
  close(): void;
}

export interface LineHandlers {
  /** A line without its LF; never empty, at most lineLengthMaximum + 1 characters. */
  onLine(line: string): void;
  onDropped(bytes: number): void;
}

const LF = 10;

export const openIntake = ({ onLine, onDropped }: LineHandlers): LineIntake => {
  // latin1: each byte is one character, so that noise cannot become something else on the way.
  const parser = new ReadlineParser({ delimiter: '\n', encoding: 'latin1' });
  let beforeFirst = true;
  let held = 0;
  let closed = false;
  parser.on('data', (line: string) => {
    if (!closed) onLine(line);
  });

  const pass = (bytes: Uint8Array, from: number, to: number): void => {
    if (to > from) parser.write(Buffer.from(bytes.subarray(from, to)));
  };

  return {
    take: (bytes) => {
      let passFrom = 0;
      let lineFrom = 0;
      while (lineFrom < bytes.length) {
        const end = bytes.indexOf(LF, lineFrom);
        const lineTo = end < 0 ? bytes.length : end;
        const room = beforeFirst ? 0 : limits.lineLengthMaximum + 1 - held;
        const fits = Math.min(lineTo - lineFrom, room);
        if (fits < lineTo - lineFrom || beforeFirst) {
          pass(bytes, passFrom, lineFrom + fits);
          onDropped(lineTo - lineFrom - fits);
          passFrom = beforeFirst && end >= 0 ? end + 1 : lineTo;
        }
        held = end < 0 ? held + fits : 0;
        if (end >= 0) beforeFirst = false;
        lineFrom = lineTo + 1;
      }
      pass(bytes, passFrom, bytes.length);
    },
    close: () => {
      closed = true;
      if (held > 0) onDropped(held);
      held = 0;
      parser.destroy();
    },
  };
};
