/**
 * A port whose other end is in this process, for machines that have no pseudo-terminal. The same bytes
 * pass as over a cable, and what is sent while nobody has it open is lost, as on a cable.
 */
import type { OpenPort, Port, PortHandlers } from './port.ts';

export interface InProcessPort {
  /** For the link; any path. One opening at a time. */
  readonly openPort: OpenPort;
  /** The board's end: characters of code 0 to 255. */
  write(bytes: string): void;
  onData(hear: (bytes: string) => void): void;
  /** The cable comes out: the open port is lost and opening fails until it is plugged in again. */
  unplug(): void;
  plugIn(): void;
}

export const createInProcessPort = (): InProcessPort => {
  let open: PortHandlers | undefined;
  let hear: (bytes: string) => void = () => {};
  let plugged = true;

  const openPort: OpenPort = async (path, handlers) => {
    if (!plugged) throw new Error(`No such file or directory, cannot open ${path}`);
    if (open !== undefined) throw new Error(`Resource busy, cannot open ${path}`);
    open = handlers;
    return portOf(handlers);
  };

  const portOf = (handlers: PortHandlers): Port => ({
    write: async (text) => {
      if (open !== handlers) throw new Error('Port is not open');
      hear(text);
    },
    close: async () => {
      if (open === handlers) open = undefined;
    },
  });

  return {
    openPort,
    write: (bytes) => {
      if (bytes !== '') open?.onBytes(Buffer.from(bytes, 'latin1'));
    },
    onData: (next) => {
      hear = next;
    },
    unplug: () => {
      plugged = false;
      const lost = open;
      open = undefined;
      lost?.onLost('the cable is out');
    },
    plugIn: () => {
      plugged = true;
    },
  };
};
