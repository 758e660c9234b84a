/**
 * Asks all slaves of a line in turn, once each period. What a slave did not give is told as no reading, with what came in its
 * place; a slave that stays away is asked seldom, so that the others keep their pace.
 */
import type { Clock } from '../../measure/clock.ts';
import { limits } from '../../measure/limits.ts';
import { milliseconds } from '../../measure/quantity.ts';
import type { Slave } from '../../weld/connection/modbus.ts';
import type { ToldValue } from '../../weld/told.ts';
import type { Exchange, Outcome, Question } from './question.ts';
import { questionsOf, toldBySlave, type Words } from './registers.ts';

export interface RoundsOptions {
  readonly clock: Clock;
  readonly periodMilliseconds: number;
  readonly slaves: readonly Slave[];
  readonly exchange: Exchange;
  readonly onTold: (slave: Slave, values: readonly ToldValue[]) => void;
  /** Of each question. */
  readonly onOutcome: (slave: Slave, outcome: Outcome) => void;
  /** Once when a slave is heard, and once when it has not been for some rounds. */
  readonly onHeard: (slave: Slave) => void;
  readonly onLost: (slave: Slave, trouble: Failure) => void;
}

export interface Rounds {
  close(): void;
}

type Failure = Extract<Outcome, { readonly ok: false }>;

interface Standing {
  readonly slave: Slave;
  readonly questions: readonly Question[];
  heard: boolean;
  failedRounds: number;
  askedAt: number;
  trouble: Failure;
}

export const startRounds = (options: RoundsOptions): Rounds => {
  const { clock, exchange } = options;
  const standings = options.slaves.map(
    (slave): Standing => ({
      slave,
      questions: questionsOf(slave),
      heard: false,
      failedRounds: 0,
      askedAt: Number.NEGATIVE_INFINITY,
      trouble: { ok: false, error: 'not sent', detail: 'not asked yet' },
    }),
  );
  let closed = false;
  let cancel = (): void => {};

  const isAway = ({ failedRounds }: Standing): boolean => failedRounds >= limits.slaveRoundsBeforeSeldom;

  const round = (): void => {
    const startedAt = clock.monotonic();
    const away = standings.filter(isAway).toSorted((a, b) => a.askedAt - b.askedAt)[0];
    const tried = away !== undefined && startedAt - away.askedAt >= limits.seldomMilliseconds ? away : undefined;
    const next = (index: number): void => {
      if (closed) return;
      const standing = standings[index];
      if (standing === undefined) {
        const wait = Math.max(1, startedAt + options.periodMilliseconds - clock.monotonic());
        cancel = clock.after(milliseconds(Math.ceil(wait)), round);
        return;
      }
      if (isAway(standing) && standing !== tried) {
        tell(standing, new Map());
        next(index + 1);
        return;
      }
      standing.askedAt = clock.monotonic();
      askAll(standing, () => next(index + 1));
    };
    next(0);
  };

  const askAll = (standing: Standing, then: () => void): void => {
    const { slave, questions } = standing;
    const words = new Map<number, number | string>();
    let good = true;
    const ask = (index: number, tries: number): void => {
      const question = questions[index];
      if (question === undefined) {
        settle(standing, good, words);
        then();
        return;
      }
      exchange.ask(question, (outcome) => {
        if (closed) return;
        options.onOutcome(slave, outcome);
        // An exception is an answer: the same question brings the same one.
        const again = !outcome.ok && outcome.error !== 'exception' && tries < limits.questionTries && !isAway(standing);
        if (again) return ask(index, tries + 1);
        if (!outcome.ok) {
          good = false;
          standing.trouble = outcome;
        }
        for (let at = 0; at < question.count; at += 1)
          words.set(question.register + at, outcome.ok ? outcome.words[at]! : outcome.detail);
        // A slave that is not there is not asked for its other registers too.
        if (!outcome.ok && outcome.error === 'no answer') return ask(questions.length, 1);
        ask(index + 1, 1);
      });
    };
    ask(0, 1);
  };

  const settle = (standing: Standing, good: boolean, words: Words): void => {
    if (good) {
      standing.failedRounds = 0;
      if (!standing.heard) options.onHeard(standing.slave);
      standing.heard = true;
    } else {
      standing.failedRounds += 1;
      if (standing.failedRounds === limits.slaveRoundsBeforeSeldom) {
        options.onLost(standing.slave, standing.trouble);
        standing.heard = false;
      }
    }
    tell(standing, words);
  };

  const tell = ({ slave, trouble, questions }: Standing, words: Words): void => {
    const all = new Map(words);
    for (const { register, count } of questions) {
      for (let at = register; at < register + count; at += 1) if (!all.has(at)) all.set(at, trouble.detail);
    }
    options.onTold(slave, toldBySlave(slave, all));
  };

  round();
  return {
    close() {
      closed = true;
      cancel();
      exchange.close();
    },
  };
};
