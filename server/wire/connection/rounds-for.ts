/** Rounds over the slaves of a connection, told through its speakers; the same on a serial line and on a network. */
import { limits } from '../../measure/limits.ts';
import type { ModbusRtu, ModbusTcp, Slave } from '../../weld/connection/modbus.ts';
import type { Exchange, Outcome } from '../modbus/question.ts';
import type { RoundsOptions } from '../modbus/rounds.ts';
import type { SessionOptions } from './open-connection.ts';
import type { Speaker } from './speaker.ts';

export function roundsFor(
  { connection, clock, speakers, tally, lose }: SessionOptions<ModbusRtu | ModbusTcp>,
  exchange: Exchange,
): { rounds: RoundsOptions; spoke: () => boolean } {
  let spoke = false;
  const patience = Math.max(limits.deafMilliseconds, 3 * connection.periodMilliseconds);
  let answeredAt = clock.monotonic();
  /** A word of any slave, an exception too, shows that the way to them is whole. */
  const mindSilence = (outcome: Outcome): void => {
    const isSilent = !outcome.ok && (outcome.error === 'no answer' || outcome.error === 'not sent');
    if (!isSilent) answeredAt = clock.monotonic();
    else if (clock.monotonic() - answeredAt >= patience)
      lose(`no slave has answered for ${patience / 1000} s, so the line is opened anew`);
  };
  const speakerOf = (slave: Slave): Speaker => speakers.find(({ instrument }) => instrument.board === slave.board)!;
  for (const speaker of speakers) {
    speaker.hello();
    speaker.say('waiting for hello', 'the line is open');
  }
  return {
    spoke: () => spoke,
    rounds: {
      clock,
      exchange,
      periodMilliseconds: connection.periodMilliseconds,
      slaves: connection.slaves,
      onTold: (slave, values) => speakerOf(slave).told(values),
      onOutcome: (slave, outcome) => {
        if (outcome.ok) tally.good(slave.board);
        else tally.bad(slave.board, outcome.error, outcome.detail);
        mindSilence(outcome);
      },
      onHeard: (slave) => {
        spoke = true;
        speakerOf(slave).heard();
      },
      onLost: (slave, cause) => speakerOf(slave).say('lost', `slave ${slave.address}: ${cause}`),
    },
  };
}
