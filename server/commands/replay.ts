/** `replay CAPTURE --joint JOINT.json`: what went over a port once, through the same trip again. */
import { mkdtempSync, readFileSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { limits } from '../measure/limits.ts';
import { readProgram } from '../program.ts';
import { signerBeside } from '../record/key-file.ts';
import { openRecord } from '../record/store.ts';
import { createFastClock } from '../station/fast-clock.ts';
import { type Replayed, replay as replayCapture } from '../station/replay.ts';
import { type Capture, CaptureProblem, readCapture } from '../wire/capture.ts';
import { holeText } from '../wording/hole.ts';
import { readArguments, refuse } from './arguments.ts';
import { type Command, exitStatus, type Terminal } from './command.ts';
import { readConnectionFiles } from './connection-file.ts';
import { readJointFile } from './joint-file.ts';
import { judgeAnswer, judgeText, timeOut } from './judge-answer.ts';

const help = `replay CAPTURE --joint JOINT.json [--connect FILE] [--data FOLDER] [--json]

Plays a capture of a port (page Links of a station, button Capture) through the same trip as on the day: lines are
checked, readings made, judged and recorded, with the times of the capture. The record says that it was replayed,
never that it was measured. Shows what the link saw, and what the judge says.

  --joint JOINT.json  the joint whose probes are on the board of the capture
  --connect FILE      how its instruments are read, where no board was on that port: the file as kept in
                      FOLDER.connections, or as given to serve
  --data FOLDER       a new record is begun in that folder, and kept; a temporary one if not given
  --json              the answer as JSON
  --help              this page

Exit status: 0 played, 3 bad input.`;

export const replay: Command = {
  name: 'replay',
  summary: 'a capture of a port through the same trip again',
  help,
  async run(args, terminal) {
    const options = {
      joint: { type: 'string' },
      connect: { type: 'string' },
      data: { type: 'string' },
      json: { type: 'boolean' },
    } as const;
    const asked = readArguments(replay, options, args, terminal);
    if (typeof asked === 'number') return asked;
    const { values, positionals } = asked;
    const [path, ...rest] = positionals;
    if (path === undefined || rest.length > 0) return refuse(replay, 'name one capture', terminal);
    if (values.joint === undefined) return refuse(replay, 'say with --joint which joint its probes are on', terminal);
    const capture = readCaptureFile(path, terminal);
    const entered = await readJointFile(values.joint, terminal);
    const connected = values.connect === undefined ? [] : await readConnectionFiles([values.connect], [], terminal);
    if (capture === undefined || entered === undefined || connected === undefined) return exitStatus.failed;
    const [connection] = connected;
    if (connection?.kind === 'modbus tcp' || connection?.kind === 'csv folder')
      return refuse(replay, `${values.connect} describes no line of which a capture can be made`, terminal);
    const folder = values.data ?? mkdtempSync(join(tmpdir(), 'preheat-ledger-replay-'));
    const clock = createFastClock(Date.now() - capture.begun);
    const program = readProgram();
    try {
      const record = openRecord({
        folder,
        begin: true,
        program: program.rules,
        now: () => clock.wall(),
        signer: signerBeside(folder),
        ...(program.script === undefined ? {} : { rules: program.script }),
      });
      const name = path.split(/[\\/]/).at(-1)!;
      const [rules, platform] = [program.rules, process.platform];
      const played = await replayCapture({
        capture,
        name,
        joint: entered,
        ...(connection === undefined ? {} : { connection }),
        openedBy: 'replay',
        store: record,
        clock,
        rules,
        platform,
      });
      record.close();
      tell(played, folder, values.json === true, terminal);
      return exitStatus.done;
    } catch (cause) {
      terminal.err(`replay: ${cause instanceof Error ? cause.message : String(cause)}`);
      return exitStatus.failed;
    }
  },
};

function tell(played: Replayed, folder: string, asJson: boolean, terminal: Terminal): void {
  const { assessment, counts, boards, samples, late, holes, link } = played;
  const time = timeOut('dated', assessment.at);
  if (asJson) {
    const judged = judgeAnswer(assessment, time, true);
    terminal.out(JSON.stringify({ boards, samples, late, counts, holes, link, judged, folder }, null, 2));
    return;
  }
  for (const { milliseconds, state, cause } of link)
    terminal.out(`${(milliseconds / 1000).toFixed(1).padStart(8)} s  ${state}: ${cause}`);
  const bad = Object.entries(counts.faults).map(([fault, times]) => `${times} ${fault}`);
  terminal.out(
    `Heard: ${boards.join(', ') || 'no board said hello'}. ${samples} readings, ${late} of them late; ${counts.linesBad} lines not taken${bad.length === 0 ? '' : ` (${bad.join(', ')})`}.`,
  );
  if (boards.length === 0)
    terminal.out('Where no board but another instrument was on that port, say with --connect how it is read.');
  for (const hole of holes) terminal.out(holeText({ kind: 'hole', board: boards[0] ?? '', ...hole }));
  terminal.out('');
  terminal.out('Replayed from a capture: nothing here is being measured.');
  terminal.out(judgeText(assessment, time, true));
  terminal.out(`Record: ${folder}`);
}

function readCaptureFile(path: string, terminal: Terminal): Capture | undefined {
  try {
    const most = limits.captureBytesMaximum * 5;
    if (statSync(path).size > most) throw new CaptureProblem(`larger than the ${most} bytes that a capture may have`);
    return readCapture(readFileSync(path, 'latin1'));
  } catch (cause) {
    terminal.err(`${path}: ${cause instanceof Error ? cause.message : String(cause)}`);
    terminal.err('A capture is made on the page Links of a station, or with GET /api/captures/NAME.');
    return undefined;
  }
}
