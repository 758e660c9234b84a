/**
 * A line, without its LF, becomes a frame or the reason why it is none. Promise: any text is answered,
 * nothing is thrown, and a frame comes out only if every character of the line is accounted for.
 */
import { bounds, revision } from './bounds.ts';
import { checkText } from './check.ts';
import { decodeBoardLine } from './decode-board.ts';
import { decodeHostLine } from './decode-host.ts';
import { Refused, readFields, readInteger, shown } from './fields.ts';
import type { Decoded, Frame, Rejection } from './frame.ts';
import { plainSample } from './plain-sample.ts';

export const decode = (line: string): Decoded => {
  const plain = plainSample(line);
  return plain === undefined ? decodeByFields(line) : { ok: true, frame: plain };
};

/** The same for any line, several times as slow for a plain sample. */
export const decodeByFields = (line: string): Decoded => {
  try {
    return { ok: true, frame: frameOf(line) };
  } catch (error) {
    if (error instanceof Refused) return { ok: false, rejection: error.rejection, detail: error.message };
    throw error;
  }
};

const frameOf = (line: string): Frame => {
  const words = contentOf(line).split(' ');
  const kind = words[0] ?? '';
  if (words.includes('')) throw new Refused('malformed', 'fields are parted by one space');
  const fields = readFields(words.slice(1));
  if (kind === 'hello') refuseOtherRevision(words[1] ?? '');
  const frame = decodeBoardLine(kind, fields) ?? decodeHostLine(kind, fields);
  if (frame === undefined) throw new Refused('unknown kind', `"${shown(kind)}" is no kind of line known here`);
  fields.end();
  return frame;
};

/** What stands before the check value, once the line is known to be whole. */
const contentOf = (line: string): string => {
  if (line.length > bounds.lineLengthMaximum) {
    throw new Refused('too long', `${line.length} characters, ${bounds.lineLengthMaximum} are allowed`);
  }
  const stranger = /[^\x20-\x7e]/.exec(line);
  if (stranger !== null) {
    const code = stranger[0].charCodeAt(0);
    throw new Refused('not printable', `character ${code} at place ${stranger.index + 1}${hintOf(code)}`);
  }
  const found = tail.exec(line);
  if (found === null) throw new Refused('no check value', 'the line does not end in a check value');
  const content = line.slice(0, found.index);
  if (checkText(content) !== found[1]) {
    throw new Refused('wrong check value', `the line says ${found[1]}, its characters give ${checkText(content)}`);
  }
  return content;
};

const tail = / ~([0-9a-f]{4})$/;

const hintOf = (code: number): string => (code === 13 ? ', a carriage return: lines end in LF alone' : '');

/** Told apart before anything else of a hello is read: another revision may have other fields. */
const refuseOtherRevision = (word: string): void => {
  if (!word.startsWith('revision=')) return;
  const stated = readInteger('revision', word.slice('revision='.length), bounds.short);
  if (stated !== revision) {
    throw new Refused('unknown revision' satisfies Rejection, `revision ${stated}; this side speaks ${revision}`);
  }
};
