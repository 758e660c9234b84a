/** What a station does about instruments that are no board: those it was given, those it keeps, the page that sets them up. */
import { randomUUID } from 'node:crypto';
import type { Router } from 'express';
import { SerialPort } from 'serialport';
import type { ActorOf } from '../desk/actor.ts';
import type { Pipeline } from '../pipeline.ts';
import type { WireEvent } from '../wire/event.ts';
import type { Link } from '../wire/serial-link.ts';
import { againstConnections, type Connections, claimOn, createConnections } from './connections.ts';
import { connectionsRouter } from './connections-router.ts';
import { keptConnections, waitingConnections } from './kept-connections.ts';
import type { StationOptions } from './options.ts';
import { machineOutside } from './outside.ts';
import { createTrials } from './trial.ts';

export interface ConnectingParts {
  readonly options: StationOptions;
  readonly pipeline: Pipeline;
  readonly links: Map<string, Link>;
  readonly linkEvents: Map<string, WireEvent & { type: 'link' }>;
  readonly onLink: (path: string, event: WireEvent & { type: 'link' }) => void;
  readonly actor: ActorOf;
}

export interface Connecting {
  readonly connections: Connections;
  readonly router: Router;
  /** The connection that opens this port, one on trial too; undefined where it may be a board's. */
  claimedBy(port: string): string | undefined;
  /** Opens all. Throws with words where they cannot be read by one station. */
  begin(): void;
  /** The trial and what is open. */
  end(): Promise<void>;
}

export function createConnecting({ options, pipeline, links, linkEvents, onLink, actor }: ConnectingParts): Connecting {
  const { clock, platform, folder, ports } = options;
  const outside = options.outside ?? machineOutside();
  const given = options.connections ?? [];
  const connections = createConnections({
    clock,
    platform,
    outside,
    links,
    linkEvents,
    onIdentity: (port, identity) => pipeline.portIdentified(port, identity),
    onEvent: (event) => {
      if (event.type === 'link') onLink(event.port, event);
      pipeline.wire(event);
    },
  });
  const trials = createTrials({ clock, platform, outside, newId: randomUUID });
  const boardPorts = (): readonly string[] =>
    [...pipeline.intake.boards.byId.values()].flatMap(({ port, connection }) =>
      connection === undefined && links.has(port) ? [port] : [],
    );
  const router = connectionsRouter({
    folder,
    connections,
    trials,
    // A port that was found and has no board on it may be an instrument's.
    ports: () => [...new Set([...ports, ...boardPorts()])],
    fixed: new Set(given.map(({ name }) => name)),
    actor,
    listPorts: () => SerialPort.list(),
    ...(options.demonstration === undefined ? {} : { notKept: demonstrationOnly }),
  });
  return {
    connections,
    router,
    claimedBy: (port) => claimOn([...connections.all(), ...trials.open()], port),
    begin() {
      const all = [...given, ...(options.demonstration === undefined ? keptConnections(folder) : [])];
      const against = againstConnections(all, ports);
      if (against !== undefined) throw new Error(against.because);
      for (const connection of all) connections.open(connection);
      const waiting = options.demonstration === undefined ? waitingConnections(folder) : [];
      if (waiting.length > 0) options.tell(waitingText(waiting.map(({ name }) => name)));
    },
    async end() {
      await Promise.all([trials.end(), connections.close()]);
    },
  };
}

const waitingText = (names: readonly string[]): string =>
  `Instruments of a restored record wait and are not read: ${names.join(', ')}. Try them on the page Instruments, and keep them.`;

const demonstrationOnly =
  'this is a demonstration, which has one simulated board. To read instruments start a station of your own: npm start -- --instruments --data DIR --begin';
