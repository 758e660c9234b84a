/** One opening of a serial line with Modbus slaves: the port, the line, and rounds over its slaves. */
import type { ModbusRtu } from '../../weld/connection/modbus.ts';
import { startRounds } from '../modbus/rounds.ts';
import { createRtuLine } from '../modbus/rtu-line.ts';
import type { Session } from './keep-open.ts';
import type { SessionOptions } from './open-connection.ts';
import { roundsFor } from './rounds-for.ts';

/** Own choice: modules answer within a tenth of it; more is stated where a slave is slower. */
export const answerWithin = 500;
const slowestAnswer = 1_000;

export const openRtu = async (options: SessionOptions<ModbusRtu>): Promise<Session> => {
  const { connection, clock, outside, lose } = options;
  const within = connection.answerWithinMilliseconds ?? answerWithin;
  let take = (_bytes: Uint8Array): void => {};
  const port = await outside.serial(connection)(connection.port, {
    onBytes: (bytes) => take(bytes),
    onLost: lose,
  });
  const line = createRtuLine({
    clock,
    baud: connection.baud,
    answerWithinMilliseconds: within,
    slowestAnswerMilliseconds: Math.max(within, connection.slowestAnswerMilliseconds ?? slowestAnswer),
    write: (bytes) => {
      port
        .write(Buffer.from(bytes).toString('latin1'))
        .catch((error) => lose(`writing failed: ${(error as Error).message}`));
    },
  });
  take = line.take;
  const { rounds, spoke } = roundsFor(options, line);
  const running = startRounds(rounds);
  return {
    spoke,
    async close() {
      running.close();
      await port.close();
    },
  };
};
