/**
 * Bytes written and read piece by piece: whole numbers of any length, texts, and Rice codes bit by bit. FORMAT.md, section 5,
 * says how each looks. The reader believes nothing: past the end, or beyond a bound, it refuses.
 */
import { CanonicalFailure } from './canonical.ts';

/** Beyond so many ones a Rice code gives way to the number itself in plain bits. */
const onesMaximum = 32;
const plainBits = 40;
/** What a Rice code can carry; greater numbers are packed in another way. */
export const codedMaximum = 2 ** (plainBits - 1) - 1;

export const folded = (value: number): number => (value < 0 ? -2 * value - 1 : 2 * value);
const unfolded = (value: number): number => (value % 2 === 1 ? -(value + 1) / 2 : value / 2);

/** Length in bits of a folded number in the Rice code with k plain bits. */
export const riceLength = (value: number, k: number): number => {
  const ones = Math.floor(value / 2 ** k);
  return ones < onesMaximum ? ones + 1 + k : onesMaximum + plainBits;
};

/** Numbers and texts go to the front, Rice codes without a gap behind them. */
export class PieceWriter {
  private readonly front: number[] = [];
  private readonly behind: number[] = [];
  private pending = 0;
  private pendingBits = 0;

  byte(value: number): void {
    this.front.push(value);
  }
  /** Seven bits a byte, the lowest first; the highest bit of a byte says that another one follows. */
  whole(value: number): void {
    this.front.push(...sevens(value));
  }
  signed(value: number): void {
    this.whole(folded(value));
  }
  text(value: string): void {
    const bytes = new TextEncoder().encode(value);
    this.whole(bytes.length);
    for (const byte of bytes) this.byte(byte);
  }
  rice(value: number, k: number): void {
    const number = folded(value);
    const ones = Math.floor(number / 2 ** k);
    for (let one = 0; one < Math.min(ones, onesMaximum); one += 1) this.bit(1);
    if (ones < onesMaximum) this.bit(0);
    const bits = ones < onesMaximum ? k : plainBits;
    for (let place = bits - 1; place >= 0; place -= 1) this.bit(Math.floor(number / 2 ** place) % 2);
  }
  /** `mark`, the length of the front, the front, the codes, filled up with zeros to whole bytes. */
  done(mark: number): Uint8Array {
    while (this.pendingBits > 0) this.bit(0);
    return Uint8Array.from([mark, ...sevens(this.front.length), ...this.front, ...this.behind]);
  }

  private bit(bit: number): void {
    this.pending = this.pending * 2 + bit;
    this.pendingBits += 1;
    if (this.pendingBits < 8) return;
    this.behind.push(this.pending);
    this.pending = 0;
    this.pendingBits = 0;
  }
}

const sevens = (value: number): number[] => {
  const bytes: number[] = [];
  let rest = value;
  for (; rest >= 128; rest = Math.floor(rest / 128)) bytes.push((rest % 128) + 128);
  return [...bytes, rest];
};

const decoder = new TextDecoder('utf-8', { fatal: true, ignoreBOM: true });

export class PieceReader {
  private readonly bytes: Uint8Array;
  private at = 1;
  private end: number;
  private codeAt: number;
  private current = 0;
  private left = 0;

  /** Goes past the mark. */
  constructor(bytes: Uint8Array) {
    this.bytes = bytes;
    this.end = bytes.length;
    const front = this.whole(bytes.length);
    this.end = Math.min(this.at + front, bytes.length);
    this.codeAt = this.end;
  }
  /** Nothing is left, but for the zeros that fill the last byte. */
  get isAtEnd(): boolean {
    return this.at === this.end && this.codeAt === this.bytes.length && this.current % 2 ** this.left === 0;
  }
  byte(): number {
    if (this.at >= this.end) throw tooShort();
    this.at += 1;
    return this.bytes[this.at - 1]!;
  }
  whole(most: number = Number.MAX_SAFE_INTEGER): number {
    let value = 0;
    let weight = 1;
    for (;;) {
      const byte = this.byte();
      value += (byte % 128) * weight;
      if (value > most) throw new CanonicalFailure('scans', 'a number beyond its bound');
      if (byte < 128) return value;
      weight *= 128;
    }
  }
  signed(): number {
    return unfolded(this.whole());
  }
  text(): string {
    const length = this.whole(this.end - this.at);
    const bytes = this.bytes.subarray(this.at, this.at + length);
    this.at += length;
    try {
      return decoder.decode(bytes);
    } catch {
      throw new CanonicalFailure('scans', 'a name that is not UTF-8 text');
    }
  }
  /** `k` is at most 30. */
  rice(k: number): number {
    let ones = 0;
    while (ones < onesMaximum && this.bit() === 1) ones += 1;
    return unfolded(ones < onesMaximum ? ones * (1 << k) + this.plain(k) : this.plain(plainBits));
  }

  private plain(bits: number): number {
    let value = 0;
    let wanted = bits;
    while (wanted > 0) {
      if (this.left === 0) this.refill();
      const taken = Math.min(wanted, this.left);
      this.left -= taken;
      value = value * (1 << taken) + ((this.current >> this.left) & ((1 << taken) - 1));
      wanted -= taken;
    }
    return value;
  }
  private bit(): number {
    if (this.left === 0) this.refill();
    this.left -= 1;
    return (this.current >> this.left) & 1;
  }
  private refill(): void {
    if (this.codeAt >= this.bytes.length) throw tooShort();
    this.current = this.bytes[this.codeAt]!;
    this.codeAt += 1;
    this.left = 8;
  }
}

const tooShort = (): CanonicalFailure => new CanonicalFailure('scans', 'the packed bytes end too early');
