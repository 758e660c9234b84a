/**
 * One walk over the bytes of a line that is whole. Nothing is said of what does not fit, only that it does not: who wants to know
 * more reads the line by its fields.
 */
import { bounds, type Span } from './bounds.ts';
import { crc16OfBytes } from './check.ts';

export class Walk {
  /** Something else stood there than was asked for: all that was read means nothing. */
  lost = false;
  private readonly bytes = new Uint8Array(bounds.lineLengthMaximum + 1);
  private at = 0;
  /** Where the check value begins. */
  private end = 0;

  /** Begins with another line; lost at once unless the check value is that of its characters. */
  begin(line: string): void {
    const { length } = line;
    this.lost = length > bounds.lineLengthMaximum || length < checkMark.length + digitsOfCheck;
    if (this.lost) return;
    // A character that is no ASCII becomes several bytes.
    this.lost = encoder.encodeInto(line, this.bytes).written !== length;
    this.bytes[length] = 0;
    this.end = length - checkMark.length - digitsOfCheck;
    this.at = this.end;
    this.literal(checkMark);
    const stated = this.hexadecimal();
    this.at = 0;
    if (stated !== crc16OfBytes(this.bytes, this.end)) this.lost = true;
  }

  isAtEnd(): boolean {
    return this.at >= this.end;
  }

  /** Passes over the text, which must stand here. */
  literal(text: Uint8Array): void {
    const { bytes, at } = this;
    for (let index = 0; index < text.length; index += 1) if (bytes[at + index] !== text[index]) this.lost = true;
    this.at = at + text.length;
  }

  /** Passes over the byte, which must stand here. */
  byte(byte: number): void {
    if (this.bytes[this.at] !== byte) this.lost = true;
    this.at += 1;
  }

  follows(byte: number): boolean {
    return this.bytes[this.at] === byte;
  }

  /** A decimal integer inside the span: no plus sign, no leading zero, no minus zero. */
  integer({ lowest, highest }: Span): number {
    const { bytes } = this;
    const isBelow = bytes[this.at] === minus;
    const first = isBelow ? this.at + 1 : this.at;
    let at = first;
    let size = 0;
    for (let digit = bytes[at]! - zero; digit >= 0 && digit <= 9; digit = bytes[at]! - zero) {
      size = 10 * size + digit;
      at += 1;
    }
    const digits = at - first;
    const value = isBelow ? -size : size;
    const isWritten = digits === 1 ? value !== 0 || !isBelow : digits > 1 && bytes[first] !== zero;
    if (!isWritten || value < lowest || value > highest) this.lost = true;
    this.at = at;
    return value;
  }

  /** Four digits 0-9 a-f. */
  hexadecimal(): number {
    let value = 0;
    for (const until = this.at + digitsOfCheck; this.at < until; this.at += 1) {
      const byte = this.bytes[this.at]!;
      if (byte >= zero && byte <= nine) value = 16 * value + (byte - zero);
      else if (byte >= letterA && byte <= letterF) value = 16 * value + (byte - letterA + 10);
      else this.lost = true;
    }
    return value;
  }
}

export const bytesOf = (text: string): Uint8Array => encoder.encode(text);

const encoder = new TextEncoder();
const checkMark = bytesOf(' ~');
const digitsOfCheck = 4;
const [zero, nine, minus] = [48, 57, 45];
const [letterA, letterF] = [97, 102];
