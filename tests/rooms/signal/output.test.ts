/** When one output of a board is told, and what its replies mean; times of PROTOCOL.md, section 7, and bounds of the room. */
import { expect, test } from 'vitest';
import type { HostFrame } from '../../../firmware-protocol/codec/frame.ts';
import { createOutput } from '../../../server/signal/output.ts';

function bench() {
  const output = createOutput('lamp');
  const sent: HostFrame[] = [];
  let open = true;
  return {
    output,
    sent,
    setOpen: (now: boolean) => {
      open = now;
    },
    tell: (state: 'off' | 'on', command: number, now: number) =>
      output.tell({ kind: 'lamp', command, state }, now, (frame) => {
        if (open) sent.push(frame);
        return open;
      }),
  };
}

test('what was done is said again after ten seconds only, what changes at once', () => {
  const { output, tell, sent } = bench();
  tell('on', 1, 0);
  output.reply({ kind: 'reply', command: 1, outcome: 'done' });
  tell('on', 2, 9_999);
  expect(sent).toHaveLength(1);
  tell('off', 3, 9_999);
  tell('off', 4, 12_000);
  expect(sent.map(({ command }) => command)).toEqual([1, 3, 4]);
});

test('a refusal is believed until the board starts again', () => {
  const { output, tell, sent } = bench();
  tell('on', 1, 0);
  output.reply({ kind: 'reply', command: 1, outcome: 'refused' });
  tell('off', 2, 60_000);
  expect([sent.length, output.outcome()]).toEqual([1, 'refused']);
  output.forget();
  tell('off', 3, 60_001);
  expect([sent.length, output.outcome()]).toEqual([2, 'waiting']);
});

test('three commands without a reply make it silent, and one reply ends that', () => {
  const { output, tell } = bench();
  for (const [index, now] of [0, 2_000, 4_000].entries()) tell('on', index + 1, now);
  expect(output.outcome()).toBe('waiting');
  tell('on', 4, 6_000);
  expect(output.outcome()).toBe('silent');
  output.reply({ kind: 'reply', command: 3, outcome: 'done' });
  expect(output.outcome(), 'a reply to an older command does not count').toBe('silent');
  output.reply({ kind: 'reply', command: 4, outcome: 'done' });
  expect(output.outcome()).toBe('done');
});

test('what did not go out was not told', () => {
  const { output, tell, sent, setOpen } = bench();
  setOpen(false);
  tell('on', 1, 0);
  expect(output.outcome()).toBe('not told');
  setOpen(true);
  tell('on', 2, 1);
  expect(sent).toHaveLength(1);
});
