import { expect, test } from 'vitest';
import { exceptionText, type Outcome, type Question } from '../../../../server/wire/modbus/question.ts';
import { answerIn, checkOf, questionBytes } from '../../../../server/wire/modbus/rtu-frame.ts';
import { createRtuLine } from '../../../../server/wire/modbus/rtu-line.ts';
import { createMovedClock } from '../../../support/moved-clock.ts';

const bytesOf = (hex: string): Uint8Array => Uint8Array.from(Buffer.from(hex.replaceAll(' ', ''), 'hex'));
/** With the check value of the serial line behind it. */
const framed = (hex: string): Uint8Array => {
  const body = bytesOf(hex);
  const crc = checkOf(body);
  return Uint8Array.from([...body, crc & 255, crc >>> 8]);
};

const question: Question = { address: 17, function: 3, register: 107, count: 2 };
const answer = framed('11 03 04 00EB FF38');

const bench = () => {
  const clock = createMovedClock();
  const sent: { at: number; hex: string }[] = [];
  const line = createRtuLine({
    clock,
    baud: 9600,
    answerWithinMilliseconds: 200,
    slowestAnswerMilliseconds: 1000,
    write: (bytes) => sent.push({ at: clock.monotonic(), hex: Buffer.from(bytes).toString('hex') }),
  });
  const outcomes: Outcome[] = [];
  const ask = (asked: Question = question): void => line.ask(asked, (outcome) => outcomes.push(outcome));
  return { clock, sent, line, outcomes, ask };
};
/** On a line that has been open for a while. */
const settledBench = () => {
  const made = bench();
  made.clock.move(2000);
  return made;
};

test('the check value is that of the serial line specification and of a published example', () => {
  expect(checkOf(bytesOf('02 07'))).toBe(0x1241);
  expect(Buffer.from(questionBytes({ address: 1, function: 3, register: 0, count: 10 })).toString('hex')).toBe(
    '01030000000ac5cd',
  );
});

test('a good answer is taken at its last byte, however it is cut', () => {
  const { clock, line, outcomes, ask } = settledBench();
  ask();
  for (const byte of answer) {
    expect(outcomes).toEqual([]);
    clock.move(5);
    line.take(Uint8Array.of(byte));
  }
  expect(outcomes).toEqual([{ ok: true, words: [0x00eb, 0xff38] }]);
});

test('nothing is asked before an answer to somebody before us can no longer come', () => {
  const { clock, sent, ask } = bench();
  ask();
  clock.move(990);
  expect(sent).toEqual([]);
  clock.move(20);
  expect(sent).toHaveLength(1);
});

test('a late answer is dropped, and is no answer to the next question of the same kind', () => {
  const { clock, sent, line, outcomes, ask } = settledBench();
  ask();
  clock.move(300);
  expect(outcomes).toEqual([{ ok: false, error: 'no answer', detail: 'no answer' }]);
  ask({ ...question, register: 200 });
  clock.move(300);
  line.take(answer);
  expect(outcomes).toHaveLength(1);
  expect(line.dropped().late).toBe(1);
  expect(sent).toHaveLength(1);
  // It has come: nothing else can be late, and the next question goes out after the silence.
  clock.move(10);
  expect(sent).toHaveLength(2);
  line.take(framed('11 03 04 0001 0002'));
  expect(outcomes[1]).toEqual({ ok: true, words: [1, 2] });
});

test.each([
  ['another slave', framed('12 03 04 0001 0002'), 'another slave answered', 'slave 18 answered in place of 17'],
  ['another function', framed('11 04 04 0001 0002'), 'other answer', 'an answer to function 4 in place of 3'],
  ['another length', framed('11 03 02 0001'), 'other answer', 'an answer of 2 bytes in place of 4'],
  ['a short answer', answer.subarray(0, 6), 'broken answer', 'an answer that is too short: 6 bytes came'],
  ['only what was sent', questionBytes(question), 'no answer', 'no answer; only what was sent came back'],
])('%s is no answer, and is named', (_what, bytes, error, detail) => {
  const { clock, line, outcomes, ask } = settledBench();
  ask();
  line.take(bytes);
  clock.move(300);
  expect(outcomes).toEqual([{ ok: false, error, detail }]);
});

test('one wrong bit anywhere in an answer spoils it', () => {
  for (let bit = 0; bit < 8 * answer.length; bit += 1) {
    const bad = Uint8Array.from(answer);
    bad[bit >>> 3]! ^= 1 << (bit & 7);
    expect(answerIn(bad, question), `bit ${bit}`).toBeUndefined();
  }
});

test('an exception is an answer, in words', () => {
  const { line, outcomes, ask } = settledBench();
  ask();
  line.take(framed('11 83 02'));
  expect(outcomes).toEqual([{ ok: false, error: 'exception', detail: exceptionText(2) }]);
  expect(exceptionText(2)).toContain('no such register');
  expect(exceptionText(77)).toBe('exception 77, which the protocol does not name');
});

test('an adapter that sends back what was sent, and some bytes of noise, spoil nothing', () => {
  const { line, outcomes, ask } = settledBench();
  ask();
  line.take(questionBytes(question));
  line.take(Uint8Array.of(0, 255, 17));
  line.take(answer);
  expect(outcomes).toEqual([{ ok: true, words: [0x00eb, 0xff38] }]);
});

test('a line that is never quiet is given up and named, and is free again once it is quiet', () => {
  const { clock, sent, line, outcomes, ask } = settledBench();
  line.take(Uint8Array.of(1));
  ask();
  for (let passed = 0; passed < 2500; passed += 2) {
    line.take(Uint8Array.of(passed & 255));
    clock.move(2);
  }
  expect(outcomes).toMatchObject([{ ok: false, error: 'line not quiet' }]);
  expect(sent).toEqual([]);
  clock.move(100);
  ask();
  clock.move(10);
  line.take(answer);
  expect(outcomes[1]).toMatchObject({ ok: true });
});

test('what is held is bounded', () => {
  const { clock, line, outcomes, ask } = settledBench();
  ask();
  for (let count = 0; count < 50; count += 1) line.take(new Uint8Array(100).fill(7));
  clock.move(300);
  expect(outcomes).toMatchObject([{ ok: false, error: 'broken answer', detail: expect.stringContaining('300 bytes') }]);
});
