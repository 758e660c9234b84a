/**
 * A pseudo-terminal: a board in software writes at one end, and the path of the other end is opened like any
 * serial port. The line is set raw before the path is handed out, so that nothing is echoed and no LF changes
 * on the way. Where the system has none, the answer is undefined and the caller takes an in-process port.
 */
import { closeSync, constants, openSync } from 'node:fs';
import { createPump } from './pump.ts';
import { serialPortOpener } from './serial-port.ts';

export interface PseudoTerminal {
  /** What a station opens. */
  readonly path: string;
  /**
   * Characters of code 0 to 255. False if so much waits that these were dropped: whoever must not lose any
   * awaits drained before going on. If nobody reads for a second, what waits is dropped, as on a cable.
   */
  write(bytes: string): boolean;
  /** Resolves when nothing waits any more. */
  drained(): Promise<void>;
  onData(hear: (bytes: string) => void): void;
  close(): void;
}

export const openPseudoTerminal = async (): Promise<PseudoTerminal | undefined> => {
  const pair = await openPair();
  if (pair === undefined) return undefined;
  const { master, slave } = pair;
  // The library would read the other end too, and take from the station what is meant for it; but someone has to
  // hold that end open, or its settings are forgotten. So it is held here, by one who never reads.
  const holder = openSync(pair.ptsName, constants.O_RDWR | constants.O_NOCTTY);
  slave.destroy();
  await setRaw(pair.ptsName);
  const pump = createPump(pair.fd);
  let closed = false;
  let hear: (bytes: string) => void = () => {};
  master.on('data', (bytes) => hear(bytes.toString('latin1')));
  return {
    path: pair.ptsName,
    write: pump.write,
    drained: pump.drained,
    onData: (next) => {
      hear = next;
    },
    close: () => {
      if (closed) return;
      closed = true;
      pump.close();
      closeSync(holder);
      master.destroy();
    },
  };
};

interface Stream {
  on(event: 'data', listener: (bytes: Buffer) => void): unknown;
  destroy(): unknown;
}

/** What the library's open gives; its published types do not tell of it, since its Windows side has none. */
interface Pair {
  readonly master: Stream;
  readonly slave: Stream;
  readonly fd: number;
  readonly ptsName: string;
}

interface Library {
  readonly open?: (options: { readonly encoding: null }) => Pair;
}

const openPair = async (): Promise<Pair | undefined> => {
  if (process.platform === 'win32') return undefined;
  try {
    const loaded: unknown = await import('@lydell/node-pty');
    const library = loaded as Library & { readonly default?: Library };
    return (library.open ?? library.default?.open)?.({ encoding: null });
  } catch {
    // No build of the library for this system, or no pseudo-terminal left.
    return undefined;
  }
};

/** Opening a serial port sets the line raw; it stays so after closing, since the slave's end is still held here. */
const setRaw = async (path: string): Promise<void> => {
  const port = await serialPortOpener()(path, { onBytes: () => {}, onLost: () => {} });
  await port.close();
};
