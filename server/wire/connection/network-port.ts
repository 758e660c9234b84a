/** A network address as a port: a stream of bytes both ways, as of a serial line behind a converter. */
import { connect, type Socket } from 'node:net';
import { limits } from '../../measure/limits.ts';
import type { OpenPort } from '../port.ts';

/** The path is `host:port`. */
export const networkOpener: OpenPort = async (path, handlers) => {
  const at = path.lastIndexOf(':');
  let ended = false;
  const socket = await reach(path.slice(0, at), Number(path.slice(at + 1)), (cause) => {
    if (!ended) handlers.onLost(cause);
    ended = true;
  });
  socket.on('data', (bytes) => {
    if (!ended) handlers.onBytes(bytes);
  });
  return {
    write: (text) =>
      new Promise((done, failed) => {
        socket.write(text, 'latin1', (error) => (error ? failed(error) : done()));
      }),
    close: () => {
      ended = true;
      socket.destroy();
      return Promise.resolve();
    },
  };
};

/** A connection that stands, or why there is none; `lose` is told once it breaks. */
export const reach = (host: string, port: number, lose: (cause: string) => void): Promise<Socket> =>
  new Promise((resolve, reject) => {
    const socket = connect({ host, port, noDelay: true, keepAlive: true });
    let isOpen = false;
    const end = (cause: string): void => {
      socket.destroy();
      if (isOpen) lose(cause);
      else reject(new Error(cause));
    };
    socket.setTimeout(limits.networkOpenMilliseconds, () => {
      if (!isOpen) end('the device does not answer at this address');
    });
    socket.on('error', (error: NodeJS.ErrnoException) => end(causeOf(error)));
    socket.on('close', () => end('the device closed the connection'));
    socket.on('connect', () => {
      isOpen = true;
      socket.setTimeout(0);
      resolve(socket);
    });
  });

const causeOf = ({ code = '', message }: NodeJS.ErrnoException): string => {
  const plain = plainWords[code];
  return plain === undefined ? message : `${plain} (${message})`;
};

const plainWords: Readonly<Record<string, string>> = {
  ECONNREFUSED: 'the device is there and lets nobody in at this port',
  ECONNRESET: 'the device broke the connection off',
  EPIPE: 'the device broke the connection off',
  EHOSTUNREACH: 'nothing is there at this address',
  ENETUNREACH: 'no network leads to this address',
  ENOTFOUND: 'no device of this name is known to the network',
  EAI_AGAIN: 'the network does not answer who has this name',
  ETIMEDOUT: 'the device does not answer at this address',
};
