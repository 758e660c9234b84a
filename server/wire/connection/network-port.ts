/** A network address as a port: a stream of bytes both ways, as of a serial line behind a converter. */
import { connect } from 'node:net';
import { limits } from '../../measure/limits.ts';
import type { OpenPort } from '../port.ts';

/** The path is `host:port`. */
export const networkOpener: OpenPort = (path, handlers) => {
  const at = path.lastIndexOf(':');
  return new Promise((resolve, reject) => {
    const socket = connect({
      host: path.slice(0, at),
      port: Number(path.slice(at + 1)),
      noDelay: true,
      keepAlive: true,
    });
    let ended = false;
    let isOpen = false;
    const lose = (cause: string): void => {
      if (ended) return;
      ended = true;
      socket.destroy();
      if (isOpen) handlers.onLost(cause);
      else reject(new Error(cause));
    };
    socket.setTimeout(limits.networkOpenMilliseconds, () => {
      if (!isOpen) lose('the device does not answer at this address');
    });
    socket.on('error', (error) => lose(error.message));
    socket.on('close', () => lose('the device closed the connection'));
    socket.on('data', (bytes) => {
      if (!ended) handlers.onBytes(bytes);
    });
    socket.on('connect', () => {
      isOpen = true;
      resolve({
        write: (text) =>
          new Promise((done, failed) => {
            socket.write(text, 'latin1', (error) => (error ? failed(error) : done()));
          }),
        close: () => {
          ended = true;
          socket.destroy();
          return Promise.resolve();
        },
      });
    });
  });
};
