/** The connected instruments of a station: opened as their files describe, put among its links, taken away again. */

import { type Heard, heardConnection } from '../diagnosis/heard.ts';
import type { Clock } from '../measure/clock.ts';
import type { PortIdentity } from '../trip/boards.ts';
import { type Connection, connectedBy, placeOf } from '../weld/connection/connection.ts';
import { unidentifiedText } from '../weld/connection/given.ts';
import {
  type ConnectionLink,
  type Outside,
  openConnection,
  type ReadCounts,
} from '../wire/connection/open-connection.ts';
import type { WireEvent } from '../wire/event.ts';
import { isSamePort, portIdentity } from '../wire/port-identity.ts';
import type { Link } from '../wire/serial-link.ts';

export interface Connections {
  open(connection: Connection): void;
  /** Taken away by a person: its instruments are lost to the joints that name them. */
  end(name: string): Promise<void>;
  all(): readonly Connection[];
  /** How the instrument at that port was read; undefined for a board. */
  read(
    port: string,
  ): { readonly connection: Connection; readonly counts: ReadCounts; readonly heard?: Heard } | undefined;
  close(): Promise<void>;
}

export interface ConnectionsOptions {
  readonly clock: Clock;
  readonly platform: string;
  readonly outside: Outside;
  readonly links: Map<string, Link>;
  readonly linkEvents: Map<string, WireEvent & { type: 'link' }>;
  readonly onEvent: (event: WireEvent) => void;
  readonly onIdentity: (port: string, identity: PortIdentity) => void;
}

export const createConnections = (options: ConnectionsOptions): Connections => {
  const { clock, platform, outside, links, linkEvents } = options;
  const open: ConnectionLink[] = [];

  const identify = async (connection: Connection, port: string): Promise<void> => {
    // The adapter may have an identity; the instrument behind it has none that anybody could read.
    const adapter = 'port' in connection ? (await portIdentity(connection.port)).detail : '';
    options.onIdentity(port, { verified: false, detail: unidentifiedText(connection.kind, adapter) });
  };

  return {
    open(connection) {
      const onEvent = (event: WireEvent): void => {
        options.onEvent(event);
        if (event.type === 'link' && event.state === 'open') void identify(connection, event.port);
      };
      const link = openConnection({ connection, outside, clock, platform, onEvent });
      open.push(link);
      for (const { board, port } of link.instruments) links.set(port, linkOf(link, board));
    },
    async end(name) {
      const index = open.findIndex(({ connection }) => connection.name === name);
      if (index < 0) return;
      const [link] = open.splice(index, 1);
      await link!.close();
      for (const { board, port } of link!.instruments) {
        links.delete(port);
        const cause = 'the connection was taken away';
        options.onEvent({ type: 'link', port, board, state: 'lost', cause, arrivedAt: clock.wall() });
        linkEvents.delete(port);
      }
    },
    all: () => open.map(({ connection }) => connection),
    read(port) {
      for (const link of open) {
        const instrument = link.instruments.find((each) => each.port === port);
        if (instrument === undefined) continue;
        const { connection, overheard } = link;
        return {
          connection,
          counts: link.counts(instrument.board),
          // A folder is no line: its files can be looked at.
          ...(connection.kind === 'csv folder' ? {} : { heard: heardConnection(connection, overheard) }),
        };
      }
      return undefined;
    },
    async close() {
      await Promise.all(open.map((link) => link.close()));
    },
  };
};

const linkOf = (link: ConnectionLink, board: string): Link => ({
  // What is read in this way takes no commands of a board.
  send: () => false,
  counts: () => {
    const { good, errors } = link.counts(board);
    const linesBad = errors.reduce((sum, { times }) => sum + times, 0);
    return { linesGood: good, linesBad, linesMissing: 0, bytesDropped: 0, lately: link.lately(board) };
  },
  close: link.close,
});

/** The connection that opens this port, whatever name either gives it. */
export const claimOn = (connections: readonly Connection[], port: string): string | undefined =>
  connections.find((each) => 'port' in each && isSamePort(each.port, port))?.name;

/** The place that is opened, or the name of an instrument, stands twice. */
export interface Against {
  readonly what: 'place' | 'board';
  readonly because: string;
}

/** Why these connections cannot be read by one station; undefined where they can. */
export function againstConnections(connections: readonly Connection[], ports: readonly string[]): Against | undefined {
  const boards = new Set<string>();
  const places: { readonly place: string; readonly by?: string }[] = ports.map((place) => ({ place }));
  for (const connection of connections) {
    const place = placeOf(connection);
    const taken = places.find((each) => each.place === place || isSamePort(each.place, place));
    if (taken !== undefined)
      return {
        what: 'place',
        because: `${connection.name}: ${place} is read already, ${taken.by === undefined ? "as a board's port" : `by ${taken.by}`}; one line can be read by one connection. Give it its own port, or take the other away`,
      };
    places.push({ place, by: connection.name });
    for (const { board } of connectedBy(connection)) {
      if (boards.has(board))
        return { what: 'board', because: `${connection.name}: the name ${board} is another instrument's already` };
      boards.add(board);
    }
  }
  return undefined;
}
