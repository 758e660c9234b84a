/** The check value at the end of a line, worked out over its characters as they came. */
import { crc16 } from '../../../firmware-protocol/codec/check.ts';
import type { CheckKind, LineCheck } from '../../weld/connection/check.ts';
import { checkOf } from '../modbus/rtu-frame.ts';

const bytesOf = (text: string): Uint8Array => Uint8Array.from(text, (letter) => letter.charCodeAt(0));

const ways: Readonly<Record<CheckKind, { readonly digits: 2 | 4; readonly of: (counted: string) => number }>> = {
  xor: { digits: 2, of: (counted) => bytesOf(counted).reduce((all, byte) => all ^ byte, 0) },
  sum: { digits: 2, of: (counted) => bytesOf(counted).reduce((all, byte) => (all + byte) & 255, 0) },
  'crc-16 modbus': { digits: 4, of: (counted) => checkOf(bytesOf(counted)) },
  'crc-16 ccitt': { digits: 4, of: crc16 },
};

export const checkDigits = (kind: CheckKind, counted: string): string => {
  const { digits, of } = ways[kind];
  return of(counted).toString(16).toUpperCase().padStart(digits, '0');
};

/** What stands before the check value, or why the line cannot be believed. */
export function checkedLine(
  { kind, behind, countsIt = false, from = '' }: LineCheck,
  line: string,
): { readonly text: string } | { readonly why: string } {
  const whole = line.trimEnd();
  const { digits } = ways[kind];
  const markAt = whole.length - digits - behind.length;
  const said = whole.slice(-digits).toUpperCase();
  if (markAt < from.length || !whole.startsWith(behind, markAt) || !/^[0-9A-F]+$/.test(said))
    return { why: `no check value of ${digits} digits behind "${behind}"` };
  if (!whole.startsWith(from)) return { why: `it does not begin with "${from}"` };
  const right = checkDigits(kind, whole.slice(from.length, countsIt ? markAt + behind.length : markAt));
  return said === right
    ? { text: whole.slice(0, markAt) }
    : { why: `its check value is ${said} and would have to be ${right}` };
}
