/**
 * Opening and closing a port, bounded in time: a driver that hangs keeps neither the station nor the next opening. What
 * opens too late is closed again; a writer that nobody reads is not filled without end.
 */
import type { Clock } from '../measure/clock.ts';
import { limits } from '../measure/limits.ts';
import { type Milliseconds, milliseconds } from '../measure/quantity.ts';
import type { OpenPort, Port, PortHandlers } from './port.ts';

/** Rejects like the port itself, or with words of its own where the opening takes no end. */
export const openBounded = async (
  clock: Clock,
  open: OpenPort,
  path: string,
  handlers: PortHandlers,
  baudRate: number,
): Promise<Port> => {
  const opening = open(path, handlers, baudRate);
  const inTime = await within(clock, milliseconds(limits.portOpenMilliseconds), opening);
  if (inTime !== undefined) return inTime;
  opening.then(
    (port) => port.close(),
    () => {},
  );
  throw new Error(`the port does not open within ${limits.portOpenMilliseconds / 1000} s`);
};

/** False where the system still holds the port: the next opening may find it busy. */
export const closeBounded = async (clock: Clock, port: Port): Promise<boolean> =>
  (await within(
    clock,
    milliseconds(limits.portCloseMilliseconds),
    port.close().then(() => true),
  )) === true;

/** The value, or undefined once the time is over. */
const within = <T>(clock: Clock, time: Milliseconds, promise: Promise<T>): Promise<T | undefined> =>
  new Promise((resolve, reject) => {
    const cancel = clock.after(time, () => resolve(undefined));
    promise.then(
      (value) => {
        cancel();
        resolve(value);
      },
      (cause) => {
        cancel();
        reject(cause);
      },
    );
  });

/** Writes through the port; a failure is a loss of the link. False if too much waits. */
export const boundedWriter = (port: Port, lose: (cause: string) => void): ((text: string) => boolean) => {
  let waiting = 0;
  return (text) => {
    if (waiting >= limits.commandsWaitingMaximum) return false;
    waiting += 1;
    port.write(text).then(
      () => {
        waiting -= 1;
      },
      (error) => lose(`writing failed: ${asError(error).message}`),
    );
    return true;
  };
};

export const asError = (error: unknown): Error => (error instanceof Error ? error : new Error(String(error)));
