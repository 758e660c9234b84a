/**
 * Laws of the serial line with Modbus slaves: whatever comes and whenever, a value never goes to a question that it does not
 * answer, every question is answered once, and after the trouble the line reads again.
 */
import fc from 'fast-check';
import { expect, it } from 'vitest';
import type { Outcome, Question } from '../../server/wire/modbus/question.ts';
import { createRtuLine } from '../../server/wire/modbus/rtu-line.ts';
import { createMovedClock } from '../support/moved-clock.ts';
import { random } from '../support/random.ts';

fc.configureGlobal({ seed: 1 });

const slowest = 400;
/** Two blocks of the same length on each of three slaves: nothing in an answer tells which block it is of. */
const questions: readonly Question[] = [1, 2, 3].flatMap((address) =>
  [0, 16].map((register): Question => ({ address, function: 4, register, count: 4 })),
);

/** By another way than the program's: bit by bit over the polynomial as the specification draws it. */
const check = (bytes: readonly number[]): number[] => {
  let crc = 0xffff;
  for (const byte of bytes) {
    crc ^= byte;
    for (let shift = 0; shift < 8; shift += 1) {
      const carry = crc % 2 === 1;
      crc = Math.floor(crc / 2);
      if (carry) crc ^= 0xa001;
    }
  }
  return [crc % 256, Math.floor(crc / 256)];
};

/** What a slave would hold when it is asked for the nth time: no two questions have the same words. */
const wordsFor = (count: number, { address, register }: Question): number[] =>
  [0, 1, 2, 3].map((index) => (count * 31 + address * 7919 + (register + index) * 104_729) & 0xffff);

const answerOf = (question: Question, words: readonly number[]): number[] => {
  const body = [question.address, question.function, 8, ...words.flatMap((word) => [word >>> 8, word & 255])];
  return [...body, ...check(body)];
};

it('gives no value to a wrong question', () => {
  let good = 0;
  let lateAnswers = 0;
  fc.assert(
    fc.property(fc.integer({ min: 1, max: 1_000_000 }), (seed) => {
      const chance = random(seed);
      const below = (count: number): number => Math.floor(chance() * count);
      const clock = createMovedClock();
      const asked: Question[] = [];
      const say = (bytes: readonly number[], delay: number): void => {
        for (let from = 0, at = delay; from < bytes.length; at += below(4)) {
          const length = 1 + below(bytes.length - from);
          const piece = Uint8Array.from(bytes.slice(from, from + length));
          clock.after(Math.max(1, Math.min(at, slowest)) as never, () => line.take(piece));
          from += length;
        }
      };
      const noise = (count: number): number[] => Array.from({ length: count }, () => below(256));
      const line = createRtuLine({
        clock,
        baud: 19_200,
        answerWithinMilliseconds: 100,
        slowestAnswerMilliseconds: slowest,
        write: () => {
          const question = asked.at(-1)!;
          const answer = answerOf(question, wordsFor(asked.length, question));
          const delay = below(4) === 0 ? below(slowest) : 1 + below(60);
          switch (below(9)) {
            case 0:
              return;
            case 1:
              return say(noise(1 + below(400)), delay);
            case 2:
              return say([...noise(below(24)), ...answer], delay);
            case 3: {
              const bad = [...answer];
              bad[below(bad.length)]! ^= 1 << below(8);
              return say(bad, delay);
            }
            case 4:
              return say(answer.slice(0, below(answer.length)), delay);
            case 5:
              return say([...answer, ...noise(below(40))], delay);
            case 6: {
              const other = questions[below(questions.length)]!;
              // Of the same address it could not be told from the right one by anybody.
              return other.address === question.address ? undefined : say(answerOf(other, wordsFor(7, other)), delay);
            }
            default:
              return say(answer, delay);
          }
        },
      });
      const outcomes: Outcome[] = [];
      for (let count = 1; count <= 40; count += 1) {
        const question = questions[below(questions.length)]!;
        asked.push(question);
        let answers = 0;
        line.ask(question, (outcome) => {
          answers += 1;
          outcomes.push(outcome);
          if (!outcome.ok) return;
          good += 1;
          expect(outcome.words, `question ${count} of seed ${seed}`).toEqual(wordsFor(count, question));
        });
        if (below(3) === 0) say(noise(1 + below(5)), below(300));
        for (let turn = 0; turn < 200 && answers === 0; turn += 1) clock.move(20);
        expect(answers).toBe(1);
        if (below(2) === 0) clock.move(below(300));
      }
      lateAnswers += line.dropped().late;
      expect(outcomes).toHaveLength(40);
    }),
    { numRuns: 60 },
  );
  // The seeds do reach what the law is about.
  expect(good).toBeGreaterThan(500);
  expect(lateAnswers).toBeGreaterThan(20);
});
