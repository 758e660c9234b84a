/** `serve`: runs a station. Without a port it is a demonstration on a simulated board. */
import { existsSync, mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { limits } from '../measure/limits.ts';
import { readProgram } from '../program.ts';
import { recordFile } from '../record/folder.ts';
import { connectionsFolderOf } from '../record/instrument-files.ts';
import { createDemonstration, history } from '../station/demonstration.ts';
import { machineClock } from '../station/machine-clock.ts';
import type { StationOptions } from '../station/options.ts';
import { workShift } from '../station/shift/shift.ts';
import { type Station, startStation } from '../station/station.ts';
import { systemWatch } from '../wire/list-ports.ts';
import { isSamePort } from '../wire/port-identity.ts';
import { serialPortOpener } from '../wire/serial-port.ts';
import { readUsbRule } from '../wire/usb-rule.ts';
import { cautions } from '../wording/cautions.ts';
import { readArguments, refuse } from './arguments.ts';
import { type Command, exitStatus, type Terminal } from './command.ts';
import { readConnectionFiles } from './connection-file.ts';
import { demonstrationJoint, shiftJoints, webFolder } from './places.ts';
import { untilAsked } from './until-asked.ts';

const help = `serve [--port PATH ...] [--usb IDENTITY ...] [--connect FILE ...] [--instruments]
      [--data FOLDER [--begin]] [--http NUMBER] [--host ADDRESS] [--signals] [--shift]
      [--daily HH:MM] [--copies FOLDER]

Runs a station and prints its address. Without --port, --usb and --connect it is a demonstration on a simulated board;
where --data names a record that is there it shows that record and reads only the instruments kept beside it.

  --connect FILE  a file that says how another instrument is read: Modbus modules, lines of text, CSV files;
                  may be given several times (firmware-protocol/INSTRUMENTS.md)
  --instruments   a station without a board: its instruments are connected on the page Instruments, and kept
                  beside the record (FOLDER.connections), from where every later start reads them
  --port PATH     serial port of a board, as /dev/ttyUSB0 or COM3; may be given several times
  --usb IDENTITY  boards are found wherever they are plugged in, also while the station runs, by the USB identity of
                  their adapter: VENDOR:PRODUCT or VENDOR:PRODUCT:SERIAL as the command doctor lists them, or "any" for
                  every USB serial port. Opening a port starts some devices anew: with "any" no other
                  machine may hang on this computer. May be given several times, and beside --port
  --baud NUMBER   speed of the ports, 115200 if not given
  --data FOLDER   where the record is kept; needed with --port
  --begin         begin a new record in that folder. Without it a folder that holds none is refused,
                  so that a mistyped folder does not silently begin a new history
  --http NUMBER   port of the address, 4180 if not given; 0 takes a free one
  --host ADDRESS  address to listen on, 127.0.0.1 if not given. Until people are entered (command
                  people) whoever reaches it can act in any name, so open it to a trusted network only
  --signals       drive lamp, horn and permission relay of the boards. The relay only ever takes a permission
                  away or gives it back; it starts no heat and no arc, and it is no safety interlock
  --daily HH:MM   when the record is checked as a whole each day, by this computer's time: 03:00 if not given. It is
                  checked after the start too, beside the readings, and the overview says what was found
  --copies FOLDER each day after the check a verified copy of the record goes into this folder; it must be there.
                  Without it no copies are made. The station's key is never in them
  --shift         with the demonstration only, in a new record: first plays three finished jobs of the invented
                  workshop, on simulated boards too. One goes well, one has a break, one fails. Takes a minute or so
  --help          this page

Ends with Ctrl+C. Exit status: 0 ended as asked, 3 could not start.`;

const options = {
  port: { type: 'string', multiple: true },
  usb: { type: 'string', multiple: true },
  connect: { type: 'string', multiple: true },
  instruments: { type: 'boolean' },
  baud: { type: 'string' },
  data: { type: 'string' },
  begin: { type: 'boolean' },
  http: { type: 'string' },
  host: { type: 'string' },
  signals: { type: 'boolean' },
  shift: { type: 'boolean' },
  daily: { type: 'string' },
  copies: { type: 'string' },
} as const;

export const serve: Command = {
  name: 'serve',
  summary: 'run a station; without a port, a demonstration',
  help,
  async run(args, terminal) {
    const asked = readArguments(serve, options, args, terminal);
    if (typeof asked === 'number') return asked;
    const { values, positionals } = asked;
    if (positionals.length > 0)
      return refuse(serve, `"${positionals[0]}" is not understood; ports are given with --port`, terminal);
    const ports = values.port ?? [];
    const usb = (values.usb ?? []).map(readUsbRule);
    if (usb.includes(undefined))
      return refuse(serve, '--usb wants VENDOR:PRODUCT as 1a86:7523, with :SERIAL behind it, or "any"', terminal);
    const httpPort = wholeNumber(values.http ?? '4180', 65_535);
    const baudRate = wholeNumber(values.baud ?? '115200', 4_000_000);
    if (httpPort === undefined) return refuse(serve, '--http wants a number from 0 to 65535', terminal);
    if (baudRate === undefined || baudRate < 300)
      return refuse(serve, '--baud wants a speed from 300 to 4000000', terminal);
    if (ports.length > limits.boardsMaximum) return refuse(serve, `at most ${limits.boardsMaximum} ports`, terminal);
    const twice = ports.find((port, place) => ports.slice(0, place).some((other) => isSamePort(port, other)));
    if (twice !== undefined) return refuse(serve, twiceText(twice, ports), terminal);
    const connections = await readConnectionFiles(values.connect ?? [], ports, terminal);
    if (connections === undefined) return exitStatus.failed;
    const readsSomething =
      ports.length > 0 ||
      usb.length > 0 ||
      connections.length > 0 ||
      values.instruments === true ||
      (values.data !== undefined && existsSync(connectionsFolderOf(values.data)));
    // Simulated readings never go into a record that somebody keeps, because a port was forgotten.
    const isThere = values.data !== undefined && existsSync(recordFile(values.data));
    if (values.shift === true && isThere)
      return refuse(serve, `--shift begins a new record and ${values.data} holds one; name another folder`, terminal);
    const isReal = readsSomething || isThere;
    if (isReal && values.data === undefined) {
      return refuse(serve, 'say with --data where the record is kept (and --begin the first time)', terminal);
    }
    if (values.shift === true && readsSomething)
      return refuse(serve, '--shift plays simulated boards; leave it out with --port, --usb and --connect', terminal);
    if (values.shift === true && values.data !== undefined && values.begin !== true)
      return refuse(serve, '--shift begins a new record: add --begin, or leave --data out', terminal);
    const dailyAtMinutes = minutesOfDay(values.daily ?? '03:00');
    if (dailyAtMinutes === undefined) return refuse(serve, '--daily wants a time of day, as 03:00', terminal);
    const copiesIn = values.copies;
    if (copiesIn !== undefined && !existsSync(copiesIn))
      return refuse(serve, `--copies: ${copiesIn} is not there; plug in what it lies on, or make the folder`, terminal);
    if (!existsSync(webFolder)) return refuse(serve, 'the pages are not built; run npm run build', terminal);
    const common = {
      httpPort,
      host: values.host ?? '127.0.0.1',
      folder: values.data,
      begin: values.begin === true,
      signals: values.signals === true,
      shift: values.shift === true,
      keeping: { dailyAtMinutes, ...(copiesIn === undefined ? {} : { copiesIn }) },
    };
    if (isThere && !readsSomething) terminal.out(nothingRead);
    try {
      const rules = usb.filter((rule) => rule !== undefined);
      return isReal
        ? await serveHardware(
            { ports, usb: rules, baudRate, connections },
            { ...common, folder: values.data! },
            terminal,
          )
        : await serveDemonstration(common, terminal);
    } catch (cause) {
      terminal.err(`serve: ${cause instanceof Error ? cause.message : String(cause)}`);
      if (!common.begin && /no record in/.test(String(cause)))
        terminal.err('To begin a new record there, add --begin.');
      return exitStatus.failed;
    }
  },
};

const nothingRead = `No port was named, so nothing is read: the record is shown, and acts can be entered.
Name the port of the board with --port. The demonstration wants a folder without a record, with --begin, or no --data.`;

interface Common {
  readonly httpPort: number;
  readonly host: string;
  readonly folder: string | undefined;
  readonly begin: boolean;
  readonly signals: boolean;
  readonly shift: boolean;
  readonly keeping: NonNullable<StationOptions['keeping']>;
}

async function serveHardware(
  hardware: Pick<StationOptions, 'ports' | 'usb' | 'baudRate' | 'connections'>,
  common: Common & { folder: string },
  terminal: Terminal,
): Promise<number> {
  const station = await startStation({
    ...common,
    ...hardware,
    openPort: serialPortOpener(),
    watch: systemWatch(process.platform),
    clock: machineClock(),
    platform: process.platform,
    webFolder,
    program: readProgram(),
    tell: terminal.err,
  });
  const asked = untilAsked();
  announce(station, common.folder, terminal);
  await asked;
  await station.close();
  return exitStatus.done;
}

async function serveDemonstration(common: Common, terminal: Terminal): Promise<number> {
  const folder = common.folder ?? mkdtempSync(join(tmpdir(), 'preheat-ledger-demonstration-'));
  const begin = common.begin || common.folder === undefined;
  if (common.shift) {
    terminal.out(
      'Playing three finished jobs of the invented workshop on simulated boards. This takes a minute or so.',
    );
    const before = history.minutes * 60_000;
    const shift = { folder, joints: shiftJoints, program: readProgram(), before, tell: terminal.err };
    const { name, password } = await workShift(shift);
    terminal.out(
      `The station knows the people of the workshop now. To act here, sign on as ${name} with the password ${password}`,
    );
  }
  const demonstration = await createDemonstration(demonstrationJoint);
  const { clock, path, openPort, remark } = demonstration;
  try {
    const station = await startStation({
      ...common,
      folder,
      begin: begin && !common.shift,
      ports: [path],
      openPort,
      clock,
      platform: process.platform,
      webFolder,
      program: readProgram(),
      demonstration: remark === undefined ? {} : { remark },
      tell: terminal.err,
    });
    terminal.out('Demonstration on a simulated board: nothing here was measured.');
    if (remark !== undefined) terminal.out(remark);
    const asked = untilAsked();
    announce(station, folder, terminal);
    await Promise.race([demonstration.play(station), asked]);
    await asked;
    demonstration.close();
    await station.close();
    return exitStatus.done;
  } catch (cause) {
    demonstration.close();
    throw cause;
  }
}

function announce(station: Station, folder: string, terminal: Terminal): void {
  terminal.out(`Station: ${station.address}`);
  terminal.out(`Record:  ${folder}`);
  for (const caution of cautions) terminal.out(`  ${caution}`);
  terminal.out('Ctrl+C ends it.');
}

/** Two names may lead to one device, as /dev/ttyUSB0 and its lasting name do. */
const twiceText = (port: string, ports: readonly string[]): string => {
  const first = ports.find((other) => isSamePort(other, port))!;
  return first === port
    ? `the port ${port} is given twice; name it once`
    : `${first} and ${port} are the same port; name it once`;
};

const wholeNumber = (text: string, most: number): number | undefined =>
  /^\d{1,7}$/.test(text) && Number(text) <= most ? Number(text) : undefined;

const minutesOfDay = (text: string): number | undefined => {
  const [, hours, minutes] = /^([01]?\d|2[0-3]):([0-5]\d)$/.exec(text) ?? [];
  return hours === undefined ? undefined : Number(hours) * 60 + Number(minutes);
};
