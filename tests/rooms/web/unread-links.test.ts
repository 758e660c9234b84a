/** What is not read is told on every page in one banner, however many ports it is: the sentence of the joint stays in sight. */
import { expect, test } from 'vitest';
import type { LinkView } from '../../../server/screen/contract.ts';
import { unreadWords } from '../../../web/state/unread-links.ts';

const link = (over: Partial<LinkView>): LinkView => ({
  port: '/dev/ttyUSB0',
  state: 'open',
  verified: true,
  linesGood: 10,
  linesBad: 0,
  ...over,
});
const gone = (number: number): LinkView =>
  link({
    port: `/dev/ttyUSB${number}`,
    board: `PB-${number}`,
    state: 'refused',
    cause: 'no such port',
    advice: 'Plug it in.',
  });

test('nothing is said while all is read, or about to be', () => {
  expect(unreadWords([])).toBeUndefined();
  expect(unreadWords([link({}), link({ state: 'opening' }), link({ state: 'waiting for hello' })])).toBeUndefined();
});

test('one is told with why and what to do', () => {
  expect(unreadWords([link({}), gone(1)])).toEqual({ head: 'Not read: PB-1: no such port.', rest: 'Plug it in.' });
  const lost = unreadWords([link({ state: 'lost', cause: 'nothing came for 3 s' })]);
  expect(lost).toEqual({
    head: 'No connection to /dev/ttyUSB0: nothing came for 3 s.',
    rest: 'Check the cable at /dev/ttyUSB0.',
  });
});

test('many, as when a hub drops out, are one banner that names them and what they share', () => {
  const eight = unreadWords(Array.from({ length: 8 }, (_, number) => gone(number + 1)))!;
  expect(eight.head).toBe('Not read: PB-1, PB-2, PB-3, PB-4, PB-5, PB-6 and 2 more: no such port.');
  expect(eight.rest).toMatch(/hub/);
  expect((eight.head + eight.rest).length).toBeLessThan(250);
  const apart = unreadWords([gone(1), link({ state: 'refused', cause: 'another device speaks here' })])!;
  expect(apart).toEqual({
    head: 'Not read: PB-1 and /dev/ttyUSB0.',
    rest: 'What each of them needs stands on the page',
  });
});
