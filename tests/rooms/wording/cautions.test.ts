import { expect, it } from 'vitest';
import { cautions } from '../../../server/wording/cautions.ts';

it('cautions of heat, gas, current and late cracks, and puts the code first', () => {
  const all = cautions.join(' ');
  for (const word of [
    /hot metal/i,
    /gas/i,
    /current/i,
    /crack/i,
    /code/,
    /qualified welding procedure/,
    /licensed practice/,
  ]) {
    expect(all).toMatch(word);
  }
});
