/**
 * RFC 8785 (JSON Canonicalization Scheme), section 3.2: order of keys, escapes, literals. Canonical bytes follow it but in two
 * things, which FORMAT.md states: a number that is no integer is text, and text that begins with "#" gets another one.
 */
import { expect, test } from 'vitest';
import { canonicalText } from '../../server/ledger/canonical.ts';

test('section 3.2.3: keys by their UTF-16 code units', () => {
  const given = {
    '\u20ac': 'Euro Sign',
    '\r': 'Carriage Return',
    '\ufb33': 'Hebrew Letter Dalet With Dagesh',
    '1': 'One',
    '\ud83d\ude00': 'Emoji: Grinning Face',
    '\u0080': 'Control',
    '\u00f6': 'Latin Small Letter O With Diaeresis',
  };
  expect(canonicalText(given)).toBe(
    '{"\\r":"Carriage Return","1":"One","\u0080":"Control","\u00f6":"Latin Small Letter O With Diaeresis",' +
      '"\u20ac":"Euro Sign","\ud83d\ude00":"Emoji: Grinning Face","\ufb33":"Hebrew Letter Dalet With Dagesh"}',
  );
});

test('section 3.2.2: text is escaped only where it must be; literals as they are', () => {
  const given = { string: '\u20ac$\u000F\u000aA\'\u0042\u0022\u005c\\"/', literals: [null, true, false] };
  expect(canonicalText(given)).toBe('{"literals":[null,true,false],"string":"\u20ac$\\u000f\\nA\'B\\"\\\\\\\\\\"/"}');
});

test('appendix B: integers as it writes them, up to the greatest that is exact; others are text here', () => {
  const written = [0, -0, 9007199254740991, -9007199254740991].map((each) => canonicalText(each));
  expect(written).toEqual(['0', '0', '9007199254740991', '-9007199254740991']);
  // 4340000000000001 as IEEE 754 is 9007199254740994, which the RFC writes as digits.
  expect([9007199254740994, 333333333.3333333, 1e-7].map((each) => canonicalText(each))).toEqual([
    '"#9007199254740994"',
    '"#333333333.3333333"',
    '"#0.0000001"',
  ]);
});
