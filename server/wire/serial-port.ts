/**
 * The real port. Each opening makes a new object, since one that was lost keeps half a line and, on some
 * systems, the lock. Listeners stand before the port is opened, so that no error goes unheard.
 */
import { SerialPort } from 'serialport';
import type { OpenPort, Port, PortHandlers } from './port.ts';

/** How characters are framed on the line; a board's are of 8 bits without parity, with 1 stop bit. */
export interface Framing {
  readonly dataBits?: 7 | 8;
  readonly parity?: 'none' | 'even' | 'odd';
  readonly stopBits?: 1 | 2;
}

/** A way to open serial devices at the given speed, unless another is asked for. */
export const serialPortOpener =
  (baudRate = 115_200, { dataBits = 8, parity = 'none', stopBits = 1 }: Framing = {}): OpenPort =>
  (path, handlers, rate = baudRate) => {
    // hupcl false: closing does not drop the line that resets many boards; opening may still reset them.
    const device = new SerialPort({ path, baudRate: rate, dataBits, parity, stopBits, autoOpen: false, hupcl: false });
    const port = portOf(device, handlers);
    return new Promise((resolve, reject) => {
      device.open((error) => (error === null ? resolve(port) : reject(error)));
    });
  };

const portOf = (device: SerialPort, handlers: PortHandlers): Port => {
  let ended = false;
  const lose = (cause: string): void => {
    if (ended) return;
    ended = true;
    handlers.onLost(cause);
  };
  device.on('data', (bytes: Buffer) => {
    if (!ended) handlers.onBytes(bytes);
  });
  device.on('error', (error: Error) => lose(error.message));
  // With nothing where it was closed or has told an error before.
  device.on('close', (error?: Error | null) => lose(error ? goneText(error) : 'the port closed'));
  return {
    write: (text) =>
      new Promise((resolve, reject) => {
        device.write(text, 'latin1', (error) => (error ? reject(error) : resolve()));
      }),
    close: () => {
      ended = true;
      return new Promise((resolve) => {
        if (device.isOpen) device.close(() => resolve());
        else resolve();
      });
    },
  };
};

/** The system's own words for it are mostly of no use: a bad file descriptor. */
const goneText = ({ message }: Error): string => `the port is gone, as when it is pulled out (${message})`;
