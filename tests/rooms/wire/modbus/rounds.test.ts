import { expect, test } from 'vitest';
import type { ModbusRtu } from '../../../../server/weld/connection/modbus.ts';
import type { ToldValue } from '../../../../server/weld/told.ts';
import { type Exchange, failed, type Outcome, type Question } from '../../../../server/wire/modbus/question.ts';
import { startRounds } from '../../../../server/wire/modbus/rounds.ts';
import { connectionIn, register, rtuFile, slaveFile } from '../../../support/connection-files.ts';
import { createMovedClock } from '../../../support/moved-clock.ts';
import { random } from '../../../support/random.ts';

const channel = { ...register, register: 0, number: 'uint16', scale: 1 };
const { slaves } = connectionIn<ModbusRtu>(
  rtuFile(
    [1, 2, 3].map((address) => {
      const channels = [channel, { ...channel, channel: 2, register: 200 }];
      return slaveFile({ board: `TC-${address}`, address, firstRegister: 0, channels });
    }),
  ),
);

/** Each slave answers with its own address; what takes its place, and how long it takes, the test says. */
const bench = (answer: (question: Question) => { readonly outcome?: Outcome; readonly takes: number }) => {
  const clock = createMovedClock();
  const told: { board: string; values: readonly ToldValue[]; at: number }[] = [];
  const asked: { address: number; at: number }[] = [];
  const states: string[] = [];
  const exchange: Exchange = {
    ask(question, done) {
      asked.push({ address: question.address, at: clock.monotonic() });
      const { outcome, takes } = answer(question);
      const words = [question.address + question.register];
      clock.after(takes as never, () => done(outcome ?? { ok: true, words }));
    },
    close() {},
  };
  const rounds = startRounds({
    clock,
    exchange,
    periodMilliseconds: 1000,
    slaves,
    onTold: ({ board }, values) => told.push({ board, values, at: clock.monotonic() }),
    onOutcome: () => {},
    onHeard: ({ board }) => states.push(`heard ${board}`),
    onLost: ({ board }, { detail }) => states.push(`lost ${board}: ${detail}`),
  });
  return { clock, told, asked, states, rounds };
};

test('a slave that stays away is told as no reading each period, is asked seldom, and costs the others little', () => {
  let away = true;
  const { clock, told, asked, states } = bench(({ address }) =>
    address === 2 && away ? { outcome: failed('no answer', 'no answer'), takes: 1000 } : { takes: 20 },
  );
  clock.move(40_000);
  expect(states).toEqual(['heard TC-1', 'heard TC-3', 'lost TC-2: no answer']);
  const late = asked.filter(({ at }) => at > 20_000);
  expect(late.filter(({ address }) => address === 2).length).toBeLessThanOrEqual(4);
  for (const board of ['TC-1', 'TC-3']) {
    const times = told.filter((each) => each.board === board && each.at > 20_000).map(({ at }) => at);
    // Three periods make a reading old.
    expect(Math.max(...times.slice(1).map((at, index) => at - times[index]!))).toBeLessThan(2500);
  }
  const ofAway = told.filter(({ board }) => board === 'TC-2');
  expect(ofAway.length).toBeGreaterThan(25);
  expect(ofAway.every(({ values }) => values.every((value) => 'fault' in value && value.said === 'no answer'))).toBe(
    true,
  );
  away = false;
  clock.move(10_000);
  expect(states.at(-1)).toBe('heard TC-2');
  expect(told.findLast(({ board }) => board === 'TC-2')!.values).toMatchObject([
    { reported: 2000 },
    { reported: 202_000 },
  ]);
});

test('faults by seed: each round tells every channel of every slave once, its own value or why there is none', () => {
  for (let seed = 1; seed <= 20; seed += 1) {
    const chance = random(seed);
    const below = (count: number): number => Math.floor(chance() * count);
    const troubles = [
      failed('no answer', 'no answer'),
      failed('broken answer', 'an answer that is too short'),
      failed('exception', 'exception 2'),
      failed('another slave answered', 'slave 9 answered'),
    ];
    const { clock, told } = bench(() =>
      below(4) === 0 ? { outcome: troubles[below(4)]!, takes: 1 + below(900) } : { takes: 1 + below(60) },
    );
    clock.move(60_000);
    const names = told.map(({ board }) => board);
    expect(names.slice(0, 3 * Math.floor(names.length / 3))).toEqual(
      names.slice(0, 3 * Math.floor(names.length / 3)).map((_, index) => `TC-${(index % 3) + 1}`),
    );
    for (const { board, values } of told) {
      const address = Number(board.slice(3));
      expect(values.map((value) => value.channel)).toEqual([1, 2]);
      for (const value of values) {
        if ('reported' in value) expect(value.reported).toBe(1000 * (address + (value.channel === 2 ? 200 : 0)));
        else expect(value).toMatchObject({ fault: 'no reading' });
      }
    }
    expect(told.some(({ values }) => values.some((value) => 'reported' in value))).toBe(true);
  }
});
