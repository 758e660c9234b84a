/** `doctor`: which serial ports this computer has, who may open them, and how the links of a running station stand. Opens no port. */
import { existsSync } from 'node:fs';
import { hardwareText } from '../diagnosis/hardware.ts';
import { rightsProblem } from '../diagnosis/rights.ts';
import type { LinksView } from '../screen/links-view.ts';
import { systemPorts } from '../wire/list-ports.ts';
import { type ListedPort, type ListPorts, portIdentity } from '../wire/port-identity.ts';
import { usbIdentity } from '../wire/usb-rule.ts';
import { readArguments, refuse } from './arguments.ts';
import { type Command, exitStatus, type Terminal } from './command.ts';

const help = `doctor [PORT ...] [--station ADDRESS]

Lists the serial ports of this computer with their adapters, drivers and rights, says in plain words what is wrong and
what to do, and asks a running station how its links stand. It opens no port and writes to none: opening starts some
devices anew.

  PORT               look at this one, as /dev/ttyUSB0 or COM3
  --station ADDRESS  the station to ask, http://127.0.0.1:4180 if not given
  --help             this page

Exit status: 0 nothing wrong was found, 1 something is, 3 bad input.`;

/** Handed in, so that a test can hand in another computer. */
export interface Computer {
  readonly platform: string;
  readonly list: ListPorts;
  readonly ask: (address: string) => Promise<LinksView | undefined>;
}

export const doctorOf = (computer: Computer): Command => {
  const command: Command = {
    name: 'doctor',
    summary: 'ports, rights, drivers and links, and what is wrong with them',
    help,
    async run(args, terminal) {
      const asked = readArguments(command, { station: { type: 'string' } }, args, terminal);
      if (typeof asked === 'number') return asked;
      const address = asked.values.station ?? 'http://127.0.0.1:4180';
      if (!URL.canParse(address))
        return refuse(command, '--station wants an address as http://127.0.0.1:4180', terminal);
      const view = await computer.ask(address);
      const isReading = view?.links.some(({ state }) => state === 'open') ?? false;
      // The station may say the same of a port as this command does.
      const found = [
        ...(await tellPorts(asked.positionals, isReading, computer, terminal)),
        ...tellStation(view, address, terminal),
      ];
      const wrong = [...new Set(found)];
      terminal.out('');
      terminal.out(wrong.length === 0 ? 'Nothing wrong was found.' : 'What to do:');
      for (const each of wrong) terminal.out(`  ${each}`);
      return wrong.length === 0 ? exitStatus.done : exitStatus.doesNotComply;
    },
  };
  return command;
};

export const doctor: Command = doctorOf({
  platform: process.platform,
  list: systemPorts(process.platform),
  ask: askStation,
});

async function tellPorts(
  named: readonly string[],
  isReading: boolean,
  computer: Computer,
  terminal: Terminal,
): Promise<string[]> {
  const { platform, list } = computer;
  let ports: readonly ListedPort[];
  try {
    ports = await list();
  } catch (cause) {
    terminal.out('Ports of this computer: it cannot list them.');
    return [`The ports cannot be listed (${(cause as Error).message}); name them with --port.`];
  }
  const wrong: string[] = [];
  terminal.out(
    ports.length === 0 ? 'Ports of this computer: none with a device behind it.' : 'Ports of this computer:',
  );
  for (const port of ports) {
    const rights = rightsProblem(port.path, platform);
    terminal.out(`  ${port.path}  ${hardwareText(port)}${rights === undefined ? '' : '; MAY NOT BE OPENED'}`);
    const identity = usbIdentity(port);
    if (identity !== '') terminal.out(`      start with --port ${port.path}, or with --usb ${identity}`);
    if (rights !== undefined) wrong.push(`${port.path}: ${rights}`);
  }
  for (const path of named) {
    if (platform !== 'win32' && !existsSync(path)) wrong.push(`${path}: there is no such port. ${plugIn}`);
    else terminal.out(`  ${path}: ${(await portIdentity(path, list)).detail}`);
    if (!ports.some((port) => port.path === path)) {
      const rights = rightsProblem(path, platform);
      if (rights !== undefined) wrong.push(`${path}: ${rights}`);
    }
  }
  if (ports.length === 0 && named.length === 0 && !isReading) wrong.push(plugIn);
  return wrong;
}

const plugIn =
  'Plug the board in. If it then does not stand here, the cable may be one that only charges, or the driver of its adapter is missing.';

function tellStation(view: LinksView | undefined, address: string, terminal: Terminal): string[] {
  terminal.out('');
  if (view === undefined) {
    terminal.out(`Station: none answers at ${address}.`);
    return [];
  }
  terminal.out(`Station at ${address}:`);
  for (const { port, board, state, linesGood, linesBad, linesMissing, linesPerSecond } of view.links) {
    const rate = linesPerSecond === undefined ? '' : `, ${linesPerSecond.toFixed(1)} lines a second`;
    terminal.out(
      `  ${port}  ${board ?? 'no board'}, ${state}${rate}, ${linesGood} good, ${linesBad} not taken, ${linesMissing} missing`,
    );
  }
  return view.links
    .filter(({ isWell }) => !isWell)
    .flatMap(({ port, words }) => words.map((each) => `${port}: ${each}`));
}

async function askStation(address: string): Promise<LinksView | undefined> {
  try {
    const answer = await fetch(new URL('/api/links', address), { signal: AbortSignal.timeout(3000) });
    return answer.ok ? ((await answer.json()) as LinksView) : undefined;
  } catch {
    return undefined;
  }
}
