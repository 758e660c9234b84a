/**
 * What the page of instruments asks: a connection on trial, kept, taken away. What is connected decides which files and
 * addresses this machine opens, so it is for people who signed on, or for whoever sits at the station itself.
 */
import express, { type NextFunction, type Request, type Response, type Router } from 'express';
import type { ActorOf } from '../desk/actor.ts';
import { limits } from '../measure/limits.ts';
import type { ConnectionsView } from '../screen/connections-view.ts';
import { type Connection, connectedBy, placeOf, readConnection } from '../weld/connection/connection.ts';
import { wayText } from '../weld/connection/given.ts';
import type { ListedPort } from '../wire/port-identity.ts';
import { againstConnections, type Connections } from './connections.ts';
import { dropConnection, dropWaiting, keepConnection, waitingConnections } from './kept-connections.ts';
import type { Trials } from './trial.ts';

export interface ConnectionsDesk {
  readonly folder: string;
  readonly connections: Connections;
  readonly trials: Trials;
  /** Ports of boards, those that were found while it runs too. */
  readonly ports: () => readonly string[];
  /** Names of connections of the command line. */
  readonly fixed: ReadonlySet<string>;
  readonly actor: ActorOf;
  readonly listPorts: () => Promise<readonly ListedPort[]>;
  readonly notKept?: string;
}

export function connectionsRouter(desk: ConnectionsDesk): Router {
  const { connections, trials, folder } = desk;
  const router = express.Router();
  const json = express.json({ limit: limits.bodyMaximum });

  router.use('/connections', (request: Request, response: Response, next: NextFunction) => {
    const against = request.method === 'GET' ? undefined : againstSettingUp(desk.actor(request), request);
    if (against === undefined) next();
    else response.status(403).json({ because: against });
  });

  router.get('/connections', async (_request, response) => {
    const view: ConnectionsView = {
      connections: connections.all().map((connection) => ({
        name: connection.name,
        way: wayText(connection.kind),
        boards: connectedBy(connection).map(({ board }) => board),
        place: placeOf(connection),
        fixed: desk.fixed.has(connection.name),
        file: connection,
      })),
      waiting: (desk.notKept === undefined ? waitingConnections(folder) : []).map(({ name, text, connection }) => ({
        name,
        text,
        ...(connection === undefined ? {} : { was: `${wayText(connection.kind)}, ${placeOf(connection)}` }),
      })),
      ports: (await listed(desk)).map(({ path, vendorId, productId }) => ({
        path,
        detail: vendorId === undefined ? '' : `USB ${vendorId}:${productId ?? ''}`,
      })),
      ...(desk.notKept === undefined ? {} : { notKept: desk.notKept }),
    };
    response.json(view);
  });

  router.post('/connections/trial', json, async (request, response) => {
    const connection = readBody(desk, request, response);
    if (connection !== undefined) response.status(201).json({ id: await trials.begin(connection) });
  });
  router.get('/connections/trial/:id', (request, response) => {
    const view = trials.view(request.params.id as string);
    if (view === undefined) response.status(404).json({ because: 'this trial has ended; begin it again' });
    else response.json(view);
  });
  router.delete('/connections/trial', async (_request, response) => {
    await trials.end();
    response.json({});
  });

  router.post('/connections', json, async (request, response) => {
    if (desk.notKept !== undefined) return void response.status(409).json({ because: desk.notKept });
    const connection = readBody(desk, request, response);
    if (connection === undefined) return;
    await trials.end();
    keepConnection(folder, connection);
    connections.open(connection);
    response.status(201).json({});
  });

  router.delete('/connections/waiting/:name', (request, response) => {
    dropWaiting(folder, request.params.name as string);
    response.json({});
  });

  router.delete('/connections/:name', async (request, response) => {
    const name = request.params.name as string;
    if (desk.fixed.has(name))
      return void response.status(409).json({ because: 'this one was given with --connect; start without it' });
    dropConnection(folder, name);
    await connections.end(name);
    response.json({});
  });
  return router;
}

const listed = async ({ listPorts }: ConnectionsDesk): Promise<readonly ListedPort[]> => {
  try {
    return await listPorts();
  } catch {
    // A convenience: a port can be typed where the system lists none.
    return [];
  }
};

function readBody(desk: ConnectionsDesk, request: Request, response: Response): Connection | undefined {
  const result = readConnection((request.body as { connection?: unknown } | undefined)?.connection);
  if ('problems' in result) {
    response.status(422).json({ problems: result.problems });
    return undefined;
  }
  const { connection } = result;
  const open = desk.connections.all();
  const refused = (field: string, found: string, allowed: string): undefined => {
    response.status(422).json({ problems: [{ field, found, allowed }] });
    return undefined;
  };
  if (open.length >= limits.connectionsMaximum)
    return refused('name', connection.name, 'fewer connections; take one away first');
  if (open.some(({ name }) => name === connection.name))
    return refused(
      'name',
      connection.name,
      'a name that no other connection has; take that one away first to change it',
    );
  const against = againstConnections([...open, connection], desk.ports());
  if (against === undefined) return connection;
  if (against.what === 'place') return refused(placeField(connection), placeOf(connection), against.because);
  const boards = connectedBy(connection).map(({ board }) => board);
  return refused('board', boards.join(', '), against.because);
}

const placeField = (connection: Connection): string =>
  'port' in connection ? 'port' : 'host' in connection ? 'host' : 'folder';

function againstSettingUp(actor: ReturnType<ActorOf>, request: Request): string | undefined {
  if (actor === 'nobody') return 'sign on first, at the top of the page';
  const isHere = /^(::1|(::ffff:)?127\.\d+\.\d+\.\d+)$/.test(request.socket.remoteAddress ?? '');
  if (actor !== 'as named' || isHere) return undefined;
  return 'this station knows no people yet, so instruments are connected at the station itself; enter people (command people) to do it from here';
}
