import { describe, expect, it } from 'vitest';
import { readNumber } from '../../../server/measure/number-text.ts';

describe('a number as somebody wrote it', () => {
  it.each([
    ['150', 150],
    [' 150.5 ', 150.5],
    ['150,5', 150.5],
    ['-3.92E+12', -3.92e12],
    ['+1e2', 100],
    ['.5', 0.5],
    ['5.', 5],
    ['\u22125', -5],
    ['1e999', Number.POSITIVE_INFINITY],
  ])('%s', (text, value) => {
    expect(readNumber(text)).toEqual({ kind: 'number', value });
  });
  it.each(['', '  ', '-', '---', 'NaN', 'nan', 'n/a', 'NULL'])('"%s" is none', (text) => {
    expect(readNumber(text)).toEqual({ kind: 'none' });
  });
  it.each(['1.234,5', '1,234.5', '1 234', '0x10', '12 °C', 'OPEN', 'Infinity', '1e', '.', '--5', '1_000', '１２'])(
    '"%s" is not a number',
    (text) => {
      expect(readNumber(text)).toEqual({ kind: 'not a number' });
    },
  );
});
