/** `emulate`: a simulated board behind a pseudo-terminal, for a station in a second terminal to serve from. */
import { keepPace, readDemonstrationJoint, setPointOf } from '../station/demonstration.ts';
import { boardOf } from '../station/joint-board.ts';
import { machineClock } from '../station/machine-clock.ts';
import { openPseudoTerminal } from '../wire/pseudo-terminal.ts';
import { readArguments, refuse } from './arguments.ts';
import { type Command, exitStatus } from './command.ts';
import { demonstrationJoint } from './places.ts';
import { untilAsked } from './until-asked.ts';

const help = `emulate [--cold]

Plays the board of demo-data/demonstration-joint.json on a pseudo-terminal and prints its path. In a second
terminal: npm start -- --port THAT-PATH --data FOLDER --begin

  --cold   heater off. Without it the part is being heated to the set point of the joint
  --help   this page

The board says in its hello that it is simulated. Ends with Ctrl+C.`;

export const emulate: Command = {
  name: 'emulate',
  summary: 'a simulated board on a pseudo-terminal',
  help,
  async run(args, terminal) {
    const asked = readArguments(emulate, { cold: { type: 'boolean' } }, args, terminal);
    if (typeof asked === 'number') return asked;
    if (asked.positionals.length > 0) return refuse(emulate, 'takes no names', terminal);
    const line = await openPseudoTerminal();
    if (line === undefined) {
      terminal.err('emulate: this system has no pseudo-terminal. The demonstration (npm start) works without one.');
      return exitStatus.failed;
    }
    const joint = readDemonstrationJoint(demonstrationJoint);
    const board = boardOf(joint);
    board.heater({ on: asked.values.cold !== true, setPointCelsius: setPointOf(joint) });
    line.onData((bytes) => board.receive(bytes));
    const ended = untilAsked();
    terminal.out(line.path);
    const stop = keepPace(machineClock(), board, line.write);
    await ended;
    stop();
    line.close();
    return exitStatus.done;
  },
};
