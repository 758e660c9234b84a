/** A line between browser and station that can be cut and mended: bytes pass unread, a cut breaks what is open. */

import type { AddressInfo } from 'node:net';
import { connect, createServer, type Socket } from 'node:net';

export interface CutLine {
  readonly address: string;
  cut(): void;
  mend(): void;
  /** What the station says is not taken from it any more, as by a browser that cannot keep up; `mend` ends it. */
  clog(): void;
  close(): Promise<void>;
}

export async function openCutLine(behind: string): Promise<CutLine> {
  const { hostname, port } = new URL(behind);
  const sockets = new Set<Socket>();
  const fromStation = new Set<Socket>();
  let whole = true;
  const kept = (socket: Socket): void => {
    sockets.add(socket);
    socket.on('error', () => socket.destroy());
    socket.on('close', () => sockets.delete(socket));
  };
  const server = createServer((near) => {
    kept(near);
    if (!whole) return void near.destroy();
    const far = connect(Number(port), hostname);
    kept(far);
    fromStation.add(far);
    far.on('close', () => fromStation.delete(far));
    near.on('close', () => far.destroy());
    far.on('close', () => near.destroy());
    near.pipe(far).pipe(near);
  });
  await new Promise<void>((resolve) => server.listen(0, hostname, resolve));
  const breakAll = (): void => {
    for (const socket of sockets) socket.destroy();
  };
  return {
    address: `http://${hostname}:${(server.address() as AddressInfo).port}/`,
    cut() {
      whole = false;
      breakAll();
    },
    clog() {
      for (const socket of fromStation) socket.pause();
    },
    mend() {
      whole = true;
      for (const socket of fromStation) socket.resume();
    },
    async close() {
      const closed = new Promise((resolve) => server.close(resolve));
      breakAll();
      await closed;
    },
  };
}
