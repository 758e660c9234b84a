/**
 * Modbus slaves at a network address, by a library. There each answer bears the number of its question, so that a late one
 * is told by that; the library drops it. One question is open at a time here too.
 */
import type modbusLibrary from 'modbus-serial';
import type { ModbusTcp } from '../../weld/connection/modbus.ts';
import { type Exchange, exceptionText, failed, type Outcome, type Question } from '../modbus/question.ts';
import { startRounds } from '../modbus/rounds.ts';
import type { Session } from './keep-open.ts';
import { reach } from './network-port.ts';
import type { SessionOptions } from './open-connection.ts';
import { roundsFor } from './rounds-for.ts';
import { answerWithin } from './rtu-session.ts';

export const openTcp = async (options: SessionOptions<ModbusTcp>): Promise<Session> => {
  const { connection, outside, lose } = options;
  const { host, tcpPort, answerWithinMilliseconds = answerWithin } = connection;
  const exchange = await outside.modbusTcp(host, tcpPort, answerWithinMilliseconds, lose);
  const { rounds, spoke } = roundsFor(options, exchange);
  const running = startRounds(rounds);
  return {
    spoke,
    async close() {
      running.close();
    },
  };
};

export const openModbusTcp = async (
  host: string,
  port: number,
  within: number,
  lose: (cause: string) => void,
): Promise<Exchange> => {
  // Read in only where it is needed: most stations have boards.
  const { default: modbus } = await import('modbus-serial');
  const client = new modbus.default();
  // The socket is ours: the library tells nobody of a connection that was broken off.
  const socket = await reach(host, port, lose);
  client.on('error', (error: unknown) => lose(error instanceof Error ? error.message : String(error)));
  await client.linkTCP(socket, { port });
  client.setTimeout(within);
  return {
    ask(question, done) {
      void read(client, question).then(done);
    },
    close: () => void socket.destroy(),
  };
};

type Client = InstanceType<typeof modbusLibrary.default>;

const read = async (client: Client, { address, function: code, register, count }: Question): Promise<Outcome> => {
  client.setID(address);
  try {
    const { data } =
      code === 3
        ? await client.readHoldingRegisters(register, count)
        : await client.readInputRegisters(register, count);
    return data.length === count
      ? { ok: true, words: data }
      : failed('other answer', `an answer of ${data.length} registers in place of ${count}`);
  } catch (error) {
    return troubleOf(error);
  }
};

/** The library tells a time that ran out and a code of the slave by fields of its error, all else by words. */
const troubleOf = (error: unknown): Outcome => {
  const { errno, modbusCode, message } = error as { errno?: unknown; modbusCode?: unknown; message?: unknown };
  if (typeof modbusCode === 'number') return failed('exception', exceptionText(modbusCode));
  if (errno === 'ETIMEDOUT') return failed('no answer', 'no answer');
  if (errno === 'ECONNREFUSED' || message === 'Port Not Open') return failed('not sent', 'the connection is gone');
  return failed('other answer', String(message ?? error));
};
