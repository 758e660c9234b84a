/** Frames of Modbus RTU as bytes: question, answer, check value (Modbus over serial line, section 2.5.1). */
import { limits } from '../../measure/limits.ts';
import { exceptionText, failed, type Outcome, type Question } from './question.ts';

/** CRC-16, polynomial A001 reflected, begun with FFFF; low byte first on the line. */
export const checkOf = (bytes: Uint8Array, from = 0, to = bytes.length): number => {
  let crc = 0xffff;
  for (let at = from; at < to; at += 1) {
    crc ^= bytes[at]!;
    for (let bit = 0; bit < 8; bit += 1) crc = crc & 1 ? (crc >>> 1) ^ 0xa001 : crc >>> 1;
  }
  return crc;
};

export const questionBytes = ({ address, function: code, register, count }: Question): Uint8Array => {
  const bytes = new Uint8Array(8);
  bytes.set([address, code, register >>> 8, register & 255, count >>> 8, count & 255]);
  const crc = checkOf(bytes, 0, 6);
  bytes.set([crc & 255, crc >>> 8], 6);
  return bytes;
};

export const answerLength = ({ count }: Question): number => 5 + 2 * count;

/**
 * The answer to this question in what came since it was sent; undefined while there is none. A few bytes of noise before it
 * are read past, and so is the question itself where the adapter sends it back.
 */
export const answerIn = (came: Uint8Array, question: Question): Outcome | undefined => {
  const bytes = withoutEcho(came, question);
  const length = answerLength(question);
  const last = Math.min(bytes.length - exceptionLength, limits.answerNoiseMaximum);
  for (let at = 0; at <= last; at += 1) {
    if (bytes[at] !== question.address) continue;
    if (bytes[at + 1] === question.function && bytes[at + 2] === 2 * question.count && isWhole(bytes, at, length))
      return { ok: true, words: wordsIn(bytes, at + 3, question.count) };
    if (bytes[at + 1] === (question.function | 0x80) && isWhole(bytes, at, exceptionLength))
      return failed('exception', exceptionText(bytes[at + 2]!));
  }
  return undefined;
};

/** What came in place of an answer, once the time for it has run out. */
export const troubleIn = (came: Uint8Array, question: Question): Outcome => {
  const bytes = withoutEcho(came, question);
  if (bytes.length === 0)
    return failed('no answer', came.length > 0 ? 'no answer; only what was sent came back' : 'no answer');
  const seen = `${bytes.length} bytes came`;
  const { address, function: code } = question;
  for (let at = 0; at + 4 < bytes.length && at <= limits.answerNoiseMaximum; at += 1) {
    const length = bytes[at + 1]! & 0x80 ? exceptionLength : 5 + bytes[at + 2]!;
    if (!isWhole(bytes, at, length)) continue;
    if (bytes[at] !== address)
      return failed('another slave answered', `slave ${bytes[at]} answered in place of ${address}`);
    return failed(
      'other answer',
      (bytes[at + 1]! & 0x7f) === code
        ? `an answer of ${bytes[at + 2]} bytes in place of ${2 * question.count}`
        : `an answer to function ${bytes[at + 1]! & 0x7f} in place of ${code}`,
    );
  }
  return bytes.length < answerLength(question)
    ? failed('broken answer', `an answer that is too short: ${seen}`)
    : failed(
        'broken answer',
        `an answer with a wrong check value: ${seen}; look at speed, parity, screen and ends of the line`,
      );
};

const exceptionLength = 5;

const withoutEcho = (bytes: Uint8Array, question: Question): Uint8Array => {
  const sent = questionBytes(question);
  return bytes.length >= sent.length && sent.every((byte, index) => bytes[index] === byte)
    ? bytes.subarray(sent.length)
    : bytes;
};

const isWhole = (bytes: Uint8Array, at: number, length: number): boolean => {
  const end = at + length;
  if (bytes.length < end) return false;
  return checkOf(bytes, at, end - 2) === bytes[end - 2]! + 256 * bytes[end - 1]!;
};

const wordsIn = (bytes: Uint8Array, from: number, count: number): number[] =>
  Array.from({ length: count }, (_, index) => 256 * bytes[from + 2 * index]! + bytes[from + 2 * index + 1]!);
