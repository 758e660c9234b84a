/** Reads connection files from disk, or says on standard error everything that is wrong with them. */
import { limits } from '../measure/limits.ts';
import { againstConnections } from '../station/connections.ts';
import { type Connection, readConnection } from '../weld/connection/connection.ts';
import type { Terminal } from './command.ts';
import { problemLines, readText } from './joint-file.ts';

/** The connections, or undefined once the terminal has been told why not. */
export async function readConnectionFiles(
  paths: readonly string[],
  ports: readonly string[],
  terminal: Terminal,
): Promise<readonly Connection[] | undefined> {
  const connections: Connection[] = [];
  for (const path of paths) {
    const text = await readText(path, 'connection', terminal);
    if (text === undefined) return undefined;
    const result = readConnection(text);
    if ('problems' in result) {
      terminal.err(problemLines(path, 'connection', result.problems));
      terminal.err('How such a file is written: firmware-protocol/INSTRUMENTS.md');
      return undefined;
    }
    connections.push(result.connection);
  }
  const against =
    connections.length > limits.connectionsMaximum
      ? `at most ${limits.connectionsMaximum} connections are read by one station`
      : againstConnections(connections, ports)?.because;
  if (against === undefined) return connections;
  terminal.err(`serve: ${against}`);
  return undefined;
}
