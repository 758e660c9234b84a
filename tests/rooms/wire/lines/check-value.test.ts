/** Check values of text lines, by the figures that the catalogues of such values give for the nine digits. */
import { expect, test } from 'vitest';
import type { CheckKind } from '../../../../server/weld/connection/check.ts';
import { checkDigits, checkedLine } from '../../../../server/wire/lines/check-value.ts';

test.each<[CheckKind, string]>([
  // 31^32^33^34^35^36^37^38^39 and the sum 1DD, by hand.
  ['xor', '31'],
  ['sum', 'DD'],
  // As the published catalogues of such polynomials have them.
  ['crc-16 modbus', '4B37'],
  ['crc-16 ccitt', '29B1'],
])('%s of 123456789 is %s', (kind, digits) => {
  expect(checkDigits(kind, '123456789')).toBe(digits);
  expect(checkedLine({ kind, behind: '*' }, `123456789*${digits.toLowerCase()}`)).toEqual({ text: '123456789' });
});

test('what is wrong is told with what would be right', () => {
  const check = { kind: 'xor', behind: '*', from: '$' } as const;
  expect(checkedLine(check, '$123456789*32')).toEqual({ why: 'its check value is 32 and would have to be 31' });
  expect(checkedLine(check, '#123456789*31')).toEqual({ why: 'it does not begin with "$"' });
  expect(checkedLine(check, '$123456789')).toEqual({ why: 'no check value of 2 digits behind "*"' });
  expect(checkedLine(check, '*31')).toEqual({ why: 'no check value of 2 digits behind "*"' });
});
