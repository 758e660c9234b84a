/**
 * Reads the fields of one line in their stated order. The first thing that does not fit ends the reading
 * with a named rejection; nothing is guessed, trimmed or converted.
 */
import { bounds, type Span } from './bounds.ts';
import type { Rejection } from './frame.ts';

/** Thrown inside the codec only; decode turns it into its answer. */
export class Refused extends Error {
  readonly rejection: Rejection;
  constructor(rejection: Rejection, detail: string) {
    super(detail);
    this.rejection = rejection;
  }
}

export interface Fields {
  /** Value of the next field, which must bear this name. */
  next(name: string): string;
  number(name: string, span: Span): number;
  word<Word extends string>(name: string, words: readonly Word[]): Word;
  /** True while the next field's name is a channel number. */
  channelFollows(): boolean;
  /** Name and value of the next field, whatever its name. */
  take(): { readonly name: string; readonly value: string };
  /** Only extension fields may be left: names that nothing before used, each once. They are skipped. */
  end(): void;
}

/** The fields of the words behind the kind of a line. */
export const readFields = (words: readonly string[]): Fields => {
  let index = 0;

  const take = (): { name: string; value: string } => {
    const word = words[index];
    if (word === undefined) throw new Refused('malformed', 'the line ends too early');
    const equals = word.indexOf('=');
    if (equals < 1) throw new Refused('malformed', `"${shown(word)}" is not a field`);
    index += 1;
    return { name: word.slice(0, equals), value: word.slice(equals + 1) };
  };

  const next = (name: string): string => {
    const word = words[index];
    if (word === undefined) throw new Refused('malformed', `the field "${name}" is missing`);
    const field = take();
    if (field.name !== name) throw new Refused('malformed', `"${shown(field.name)}" stands where "${name}" belongs`);
    return field.value;
  };

  return {
    next,
    take,
    number: (name, span) => readInteger(name, next(name), span),
    word: (name, allowed) => readWord(name, next(name), allowed),
    channelFollows: () => index < words.length && isDigit(words[index]!.charCodeAt(0)),
    end: () => {
      while (index < words.length) {
        const { name, value } = take();
        // All others have their place, or stand in rising order: only these could repeat one.
        if (words.findIndex((word) => word.startsWith(`${name}=`)) < index - 1)
          throw new Refused('malformed', `the field "${shown(name)}" stands twice`);
        if (!extensionName.test(name) || value === '') {
          throw new Refused('malformed', `"${shown(name)}" is not a field of this line`);
        }
      }
    },
  };
};

const extensionName = /^[a-z][a-z0-9-]{0,31}$/;
const identity = /^[A-Za-z0-9._-]+$/;

/** A decimal integer without plus sign, leading zero or minus zero, inside the span. */
export const readInteger = (name: string, text: string, span: Span): number => {
  const value = integerIn(text);
  if (value === undefined) throw new Refused('malformed', `${name}: "${shown(text)}" is not an integer`);
  if (value < span.lowest || value > span.highest) {
    throw new Refused('out of bounds', `${name}: ${text} is outside ${span.lowest} to ${span.highest}`);
  }
  return value;
};

/** By its characters: this is most of the work of a sample. */
const integerIn = (text: string): number | undefined => {
  const isBelow = text.charCodeAt(0) === minus;
  const first = isBelow ? 1 : 0;
  const digits = text.length - first;
  if (digits < 1 || digits > 16) return undefined;
  // A zero is written alone, and without a minus.
  if (text.charCodeAt(first) === zero) return text.length === 1 ? 0 : undefined;
  let value = 0;
  for (let at = first; at < text.length; at += 1) {
    const code = text.charCodeAt(at);
    if (!isDigit(code)) return undefined;
    value = 10 * value + (code - zero);
  }
  return isBelow ? -value : value;
};

const [zero, nine, minus] = [48, 57, 45];
const isDigit = (code: number): boolean => code >= zero && code <= nine;

export const readWord = <Word extends string>(name: string, text: string, words: readonly Word[]): Word => {
  const found = words.find((word) => word === text);
  if (found === undefined) throw new Refused('malformed', `${name}: "${shown(text)}" is none of ${words.join(', ')}`);
  return found;
};

/** Identity of a board or name of its firmware. */
export const readIdentity = (name: string, text: string): string => {
  if (!identity.test(text)) throw new Refused('malformed', `${name}: "${shown(text)}" is not a name`);
  if (text.length > bounds.identityLengthMaximum) {
    throw new Refused('out of bounds', `${name}: longer than ${bounds.identityLengthMaximum} characters`);
  }
  return text;
};

/** Keeps a message short whatever came in. */
export const shown = (text: string): string => (text.length > 24 ? `${text.slice(0, 24)}…` : text);
