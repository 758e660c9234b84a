/** `emulate`: a simulated board behind a pseudo-terminal, for a station in a second terminal to serve from. */
import { randomInt } from 'node:crypto';
import type { Board } from '../../firmware-protocol/emulator/board.ts';
import type { Mishap } from '../../firmware-protocol/emulator/mishaps/mishap.ts';
import { keepPace, readDemonstrationJoint } from '../station/demonstration.ts';
import { setPointOf } from '../station/follow-acts.ts';
import { boardOf } from '../station/joint-board.ts';
import { machineClock } from '../station/machine-clock.ts';
import type { Joint } from '../weld/joint.ts';
import { openPseudoTerminal } from '../wire/pseudo-terminal.ts';
import { readArguments, refuse } from './arguments.ts';
import { type Command, exitStatus, type Terminal } from './command.ts';
import { mishapLines, readMishap } from './mishap-argument.ts';
import { demonstrationJoint, firmwareImage } from './places.ts';
import { untilAsked } from './until-asked.ts';

const help = `emulate [--cold] [--arc FROM-UNTIL ...] [--touch PROBE+FROM-UNTIL ...] [--mishap KIND[:HOW][@PROBE][+FROM[-UNTIL]] ...]

Plays the board of demo-data/demonstration-joint.json on a pseudo-terminal and prints its path. In a second
terminal: npm start -- --port THAT-PATH --data FOLDER --begin

  --cold     heater off. Without it the part is being heated to the set point of the joint
  --arc      an arc burns from one minute to another after the start; may be given more than once
  --touch    a hand is held on the tip of a probe from one minute to another, for the check before heating:
             --cold --touch "zone A+2-2.5" --touch "zone B+3-3.5"; may be given more than once
  --firmware the firmware of the reference board (firmware-protocol/board) runs in a simulated processor, in place of a board
             that is only played; 8 probes at most
  --mishap   something happens to a probe, from a minute after the start on or at once, to the end or until another
             minute; may be given more than once. HOW is how bad, or of which type the wire is, or which other probe:
             --mishap "detached@zone A+10"   --mishap "wrong-type:J@far A"   --mishap "arc-noise:500+20-40"
  --help     this page

Mishaps:
${mishapLines()}

The board says in its hello that it is simulated. Ends with Ctrl+C.`;

export const emulate: Command = {
  name: 'emulate',
  summary: 'a simulated board on a pseudo-terminal',
  help,
  async run(args, terminal) {
    const asked = readArguments(emulate, options, args, terminal);
    if (typeof asked === 'number') return asked;
    if (asked.positionals.length > 0) return refuse(emulate, 'takes no names', terminal);
    const joint = readDemonstrationJoint(demonstrationJoint);
    const mishaps = mishapsOf(asked.values.mishap ?? [], joint, terminal);
    if (typeof mishaps === 'number') return mishaps;
    const arcs = (asked.values.arc ?? []).map(readSpan);
    if (arcs.includes(undefined))
      return refuse(emulate, 'say --arc as minutes, FROM-UNTIL, for example 30-34', terminal);
    const touches = (asked.values.touch ?? []).map((text) => readTouch(text, joint));
    if (touches.includes(undefined)) {
      const probes = joint.probes.map(({ id }) => id).join(', ');
      return refuse(
        emulate,
        `say --touch as PROBE+FROM-UNTIL, for example "zone A+2-2.5". The probes are: ${probes}`,
        terminal,
      );
    }
    const line = await openPseudoTerminal();
    if (line === undefined) {
      terminal.err('emulate: this system has no pseudo-terminal. The demonstration (npm start) works without one.');
      return exitStatus.failed;
    }
    const board = worked(
      await boardFor(joint, mishaps, asked.values.firmware === true),
      arcs.filter((arc) => arc !== undefined),
      touches.filter((touch) => touch !== undefined),
    );
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

const options = {
  cold: { type: 'boolean' },
  firmware: { type: 'boolean' },
  arc: { type: 'string', multiple: true },
  touch: { type: 'string', multiple: true },
  mishap: { type: 'string', multiple: true },
} as const;

/**
 * The simulator is loaded where it is asked for: nothing else needs it. A board that is not kept cannot count its starts,
 * so it draws their number, as PROTOCOL.md has it: started again it is known as started again.
 */
async function boardFor(joint: Joint, mishaps: Mishap[], firmware: boolean): Promise<Board> {
  const boot = randomInt(1, 0xffff_ffff);
  if (!firmware) return boardOf(joint, 1000, 20, mishaps, boot);
  const { firmwareBoardOf } = await import('../station/firmware-board.ts');
  return firmwareBoardOf(firmwareImage, joint, 1000, 20, mishaps, boot);
}

function mishapsOf(texts: readonly string[], joint: Joint, terminal: Terminal): Mishap[] | number {
  const mishaps: Mishap[] = [];
  for (const text of texts) {
    const said = readMishap(text, joint.probes);
    if ('problem' in said) return refuse(emulate, said.problem, terminal);
    mishaps.push(said.mishap);
  }
  return mishaps;
}

/** Minutes. */
interface Span {
  readonly from: number;
  readonly until: number;
}

function readSpan(text: string): Span | undefined {
  const [, from, until] = /^(\d+(?:\.\d+)?)-(\d+(?:\.\d+)?)$/.exec(text) ?? [];
  const span = { from: Number(from), until: Number(until) };
  return span.until > span.from ? span : undefined;
}

interface Touch extends Span {
  readonly channel: number;
}

function readTouch(text: string, { probes }: Joint): Touch | undefined {
  const [, id, minutes = ''] = /^(.+)\+([^+]+)$/.exec(text) ?? [];
  const channel = probes.find((probe) => probe.id === id)?.channel;
  const span = readSpan(minutes);
  return channel === undefined || span === undefined ? undefined : { channel, ...span };
}

/** Of a hand, degrees Celsius. */
const handCelsius = 33;

/** The board with arcs struck and put out, and tips held and let go, in their time. */
function worked(board: Board, arcs: readonly Span[], touches: readonly Touch[]): Board {
  let passed = 0;
  return {
    ...board,
    advance: (milliseconds) => {
      const minute = passed / 60_000;
      const isNow = ({ from, until }: Span): boolean => minute >= from && minute < until;
      board.arc(arcs.some(isNow));
      for (const channel of new Set(touches.map((touch) => touch.channel))) {
        const isHeld = touches.some((touch) => touch.channel === channel && isNow(touch));
        board.inject({ kind: 'touch', channel, celsius: isHeld ? handCelsius : undefined });
      }
      passed += milliseconds;
      return board.advance(milliseconds);
    },
  };
}
