/**
 * Reading of DER and BER: the library finds where each value begins and ends, this says what must stand where, so that
 * bytes of a stranger are read or refused with the name of what was looked for.
 */
import { type BaseBlock, fromBER } from 'asn1js';
import type { Instant } from '../measure/quantity.ts';

/** What is not of the form that was looked for. */
export class Unreadable extends Error {}

export interface Node {
  /** `0x30` for a sequence, `0xa0` for [0]: class, form and number as they stand in the first byte. */
  readonly tag: number;
  /** Tag and length included, as signatures and hashes cover it. */
  readonly whole: Uint8Array;
  readonly content: Uint8Array;
  readonly children: readonly Node[];
}

export const tags = {
  boolean: 0x01,
  integer: 0x02,
  bits: 0x03,
  octets: 0x04,
  nothing: 0x05,
  name: 0x06,
  utcTime: 0x17,
  generalizedTime: 0x18,
  sequence: 0x30,
  set: 0x31,
} as const;

/** The one value that the bytes hold, with nothing behind it. */
export const readAll = (bytes: Uint8Array, what: string): Node => {
  let read: ReturnType<typeof fromBER> | undefined;
  try {
    read = fromBER(bytes);
  } catch {
    // The library throws for some of what it cannot read, and answers with no place for the rest.
  }
  if (read?.offset !== bytes.length) throw new Unreadable(`${what} is not ASN.1, or more than that`);
  return nodeOf(read.result);
};

const nodeOf = (block: BaseBlock): Node => {
  const { tagClass, tagNumber, isConstructed } = block.idBlock;
  const whole = block.valueBeforeDecodeView;
  const inner = (block.valueBlock as { readonly value?: unknown }).value;
  return {
    tag: ((tagClass - 1) << 6) | (isConstructed ? 0x20 : 0) | Math.min(tagNumber, 31),
    whole,
    content: block.lenBlock.isIndefiniteForm
      ? whole.subarray(2, -2)
      : whole.subarray(whole.length - block.lenBlock.length),
    children: isConstructed && Array.isArray(inner) ? (inner as BaseBlock[]).filter(isValue).map(nodeOf) : [],
  };
};

/** The mark at the end of a value of indefinite length is none itself. */
const isValue = (block: BaseBlock): boolean => block.idBlock.tagClass !== 1 || block.idBlock.tagNumber !== 0;

export const must = <T>(found: T | undefined, what: string): T => {
  if (found === undefined) throw new Unreadable(`${what} is missing`);
  return found;
};

/** The node, which must bear this tag. */
export const as = (node: Node | undefined, tag: number, what: string): Node => {
  if (must(node, what).tag !== tag) throw new Unreadable(`${what} is of another kind`);
  return node!;
};

/** Those of a sequence in order: each is taken once, and what may be left out is passed over. */
export class Fields {
  private readonly left: Node[];
  constructor(node: Node) {
    this.left = [...node.children];
  }
  next(what: string, tag?: number): Node {
    const node = must(this.left.shift(), what);
    return tag === undefined ? node : as(node, tag, what);
  }
  /** The next one where it bears this tag. */
  option(tag: number): Node | undefined {
    return this.left[0]?.tag === tag ? this.left.shift() : undefined;
  }
}

/** Octets, in one piece or, as BER allows, in several. */
export const octetsOf = (node: Node): Uint8Array =>
  node.children.length === 0 ? node.content : joined(node.children.map(octetsOf));

export const joined = (parts: readonly Uint8Array[]): Uint8Array => {
  const bytes = new Uint8Array(parts.reduce((sum, { length }) => sum + length, 0));
  let place = 0;
  for (const part of parts) {
    bytes.set(part, place);
    place += part.length;
  }
  return bytes;
};

/** Bits that fill their bytes, as keys and signatures do. */
export const bitsOf = (node: Node): Uint8Array => {
  if (node.tag !== tags.bits || node.content[0] !== 0) throw new Unreadable('a text of bits is of another kind');
  return node.content.subarray(1);
};

/** An object identifier in its usual writing, 1.2.840.113549. */
export const nameOf = (node: Node): string => {
  const arcs: number[] = [];
  let arc = 0;
  for (const byte of as(node, tags.name, 'an object identifier').content) {
    arc = arc * 128 + (byte & 0x7f);
    if (byte >= 0x80) continue;
    if (arcs.length > 0) arcs.push(arc);
    else arcs.push(Math.min(2, Math.floor(arc / 40)), arc - 40 * Math.min(2, Math.floor(arc / 40)));
    arc = 0;
  }
  return arcs.join('.');
};

/** A small whole number. */
export const numberOf = (node: Node): number => {
  const { content } = as(node, tags.integer, 'a number');
  if (content.length === 0 || content.length > 4) throw new Unreadable('a number is out of bounds');
  return content.reduce((sum, byte) => sum * 256 + byte, content[0]! >= 0x80 ? -1 : 0);
};

export const isTrue = (node: Node | undefined): boolean => node !== undefined && node.content[0] !== 0;

export const textOf = (node: Node): string =>
  new TextDecoder(node.tag === 0x1e ? 'utf-16be' : 'utf-8').decode(node.content);

export const sameBytes = (a: Uint8Array, b: Uint8Array): boolean =>
  a.length === b.length && a.every((byte, place) => byte === b[place]);

/** UTC as certificates and stamps write it: 261128143739Z or 20261128143739.25Z. */
export const timeOf = (node: Node): Instant => {
  const text = textOf(node);
  const short = node.tag === tags.utcTime;
  const form = short
    ? /^(\d\d)(\d\d)(\d\d)(\d\d)(\d\d)(\d\d)()Z$/
    : /^(\d{4})(\d\d)(\d\d)(\d\d)(\d\d)(\d\d)(?:\.(\d{1,9}))?Z$/;
  const [, y, mo, d, h, mi, s, part = ''] = form.exec(text) ?? [];
  if (y === undefined) throw new Unreadable(`"${text.slice(0, 30)}" is no time in UTC`);
  // RFC 5280, 4.1.2.5.1: two digits from 50 on are of the last century.
  const year = short ? Number(y) + (Number(y) >= 50 ? 1900 : 2000) : Number(y);
  const seconds = daysBefore(year, Number(mo), Number(d)) * 86_400 + Number(h) * 3600 + Number(mi) * 60 + Number(s);
  return (seconds * 1000 + Math.floor(Number(`0.${part || '0'}`) * 1000)) as Instant;
};

/** Days from 1 January 1970, in the calendar that certificates go by. */
const daysBefore = (year: number, month: number, day: number): number => {
  if (month < 1 || month > 12 || day < 1 || day > 31) throw new Unreadable('a day that there is not');
  const y = month > 2 ? year : year - 1;
  const ofYear = Math.floor((153 * (month > 2 ? month - 3 : month + 9) + 2) / 5) + day - 1;
  return 365 * y + Math.floor(y / 4) - Math.floor(y / 100) + Math.floor(y / 400) + ofYear - 719_468;
};
