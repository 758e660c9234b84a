/** A way to the slaves that has gone dead without a word: an adapter that stays open, a device whose connection is half there. */
import { expect, test } from 'vitest';
import { limits } from '../../../../server/measure/limits.ts';
import type { Outside } from '../../../../server/wire/connection/open-connection.ts';
import { openConnection } from '../../../../server/wire/connection/open-connection.ts';
import type { WireEvent } from '../../../../server/wire/event.ts';
import { createInProcessPort } from '../../../../server/wire/in-process-port.ts';
import { exceptionText, failed } from '../../../../server/wire/modbus/question.ts';
import { connectionIn, outsideWith, rtuFile, slaveFile } from '../../../support/connection-files.ts';
import { createHandClock, type HandClock } from '../hand-clock.ts';

const { deafMilliseconds } = limits;

const openedBy = async (file: object, outside: (clock: HandClock, opened: () => void) => Partial<Outside>) => {
  const clock = createHandClock();
  let openings = 0;
  const states: string[] = [];
  const link = openConnection({
    connection: connectionIn(file),
    outside: outsideWith(outside(clock, () => (openings += 1))),
    clock,
    platform: 'linux',
    onEvent: (event: WireEvent) => {
      if (event.type === 'link') states.push(`${event.state}: ${event.cause}`);
    },
  });
  for (let second = 0; second < 3 * (deafMilliseconds / 1000); second += 1) await clock.advance(1000);
  await link.close();
  return { openings, states };
};

const tcpFile = { ...rtuFile([slaveFile()]), kind: 'modbus tcp', host: '192.0.2.7', tcpPort: 502 };
const { port, baud, parity, stopBits, ...tcp } = tcpFile as Record<string, unknown>;

test('a connection on which nobody answers is opened anew, since only that tells a dead one', async () => {
  const { openings, states } = await openedBy(tcp, (clock, opened) => ({
    modbusTcp: async () => {
      opened();
      return {
        ask: (_question, done) => void clock.after(500 as never, () => done(failed('no answer', 'no answer'))),
        close: () => {},
      };
    },
  }));
  expect(openings).toBeGreaterThan(1);
  expect(openings).toBeLessThanOrEqual(3);
  expect(states).toEqual([
    'opening: opening 192.0.2.7:502',
    'waiting for hello: the line is open',
    'refused: slave 3: no answer',
  ]);
});

test('so is a serial port that stays open and silent', async () => {
  const cable = createInProcessPort();
  const { openings } = await openedBy(rtuFile(), (_clock, opened) => ({
    serial: () => (path, handlers) => {
      opened();
      return cable.openPort(path, handlers);
    },
  }));
  expect(openings).toBeGreaterThan(1);
});

test('an exception is an answer: the line stays', async () => {
  const { openings } = await openedBy(tcp, (_clock, opened) => ({
    modbusTcp: async () => {
      opened();
      return { ask: (_question, done) => done(failed('exception', exceptionText(11))), close: () => {} };
    },
  }));
  expect(openings).toBe(1);
});
