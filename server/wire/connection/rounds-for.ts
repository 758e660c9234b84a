/** Rounds over the slaves of a connection, told through its speakers; the same on a serial line and on a network. */
import { limits } from '../../measure/limits.ts';
import type { ModbusRtu, ModbusTcp, Slave } from '../../weld/connection/modbus.ts';
import type { BusError, Exchange, Outcome } from '../modbus/question.ts';
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
  const [heard, away] = [new Set<Slave>(), new Set<Slave>()];
  /** A word of any slave, an exception too, shows that the way to them is whole. That they are away was told of each. */
  const mindSilence = (outcome: Outcome): void => {
    if (outcome.ok || outcome.error === 'exception') answeredAt = clock.monotonic();
    else if (away.size === connection.slaves.length && clock.monotonic() - answeredAt >= patience) lose();
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
        heard.add(slave);
        away.delete(slave);
        speakerOf(slave).heard();
      },
      onLost: (slave, { error, detail }) => {
        away.add(slave);
        const state = heard.has(slave) ? 'lost' : 'refused';
        const look = connection.kind === 'modbus rtu' ? lineAdvice[error] : networkAdvice[error];
        speakerOf(slave).say(state, `slave ${slave.address}: ${detail}`, look);
      },
    },
  };
}

type Advice = Readonly<Partial<Record<BusError, string>>>;
const foreignAnswer = 'See that the station is the only master on this line, and that no two modules have one address.';
const refuses =
  'It answers and refuses what it is asked: compare registers and their kind with its manual, on the page Instruments.';
const lineAdvice: Advice = {
  exception: refuses,
  'broken answer':
    'See that speed, parity and stop bits are its own, that the line is closed at both ends, and that its cable keeps away from welding cables.',
  'line not quiet': foreignAnswer,
  'no answer':
    'See that this module has power, that address, speed, parity and stop bits are its own, and that the two wires of the line are not changed for each other.',
  'another slave answered': foreignAnswer,
  'other answer': foreignAnswer,
};
const networkAdvice: Advice = {
  exception: refuses,
  'no answer':
    'The device takes the connection and says nothing: see that the address of the module is its own (its manual may call it unit identifier; often 1 or 255).',
};
